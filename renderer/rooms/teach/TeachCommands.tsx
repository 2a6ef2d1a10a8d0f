import { useCommand } from '../../commands/Commands.tsx';
import type { Bench } from './use-bench.ts';

/** Binds the keys of the bench. */
export function TeachCommands({ bench }: { readonly bench: Bench }) {
  const some = () => bench.current !== null;
  useCommand('cutup.clips', () => document.querySelector<HTMLElement>('[data-keys="cutup-clips"]')?.focus());
  useCommand('clip.up', () => void bench.move(bench.at, bench.at - 1), some);
  useCommand('clip.down', () => void bench.move(bench.at, bench.at + 1), some);
  useCommand('clip.drop', () => void bench.drop(bench.at), some);
  useCommand('clip.note', () => document.querySelector<HTMLElement>('#clip-note')?.focus(), some);
  useCommand('clip.in', () => bench.trim('in'), some);
  useCommand('clip.out', () => bench.trim('out'), some);
  useCommand('clip.untrim', bench.untrim, some);
  useCommand('clip.wide', () => bench.setWide(!bench.wide), some);
  return null;
}
