import { useCommand } from '../../../commands/Commands.tsx';
import type { LogLineState } from './use-log-line.ts';

/** Binds the keys that act on the line while it is typed. */
export function useLineCommands(line: LogLineState, onNext: () => void): void {
  useCommand('line.leave', () => line.input.current?.blur());
  useCommand('line.commit', () => void line.commit(onNext));
  useCommand('line.commitStay', () => void line.commit(() => undefined));
  const some = () => line.suggestions.length > 0;
  useCommand('line.complete', () => line.take(), some);
  useCommand('line.nextSuggestion', () => line.pick(1), some);
  useCommand('line.previousSuggestion', () => line.pick(-1), some);
  useCommand('line.recall', () => line.recall());
  useCommand('line.choose1', () => line.choose(0));
  useCommand('line.choose2', () => line.choose(1));
  useCommand('line.choose3', () => line.choose(2));
  useCommand('line.choose4', () => line.choose(3));
  useCommand('line.choose5', () => line.choose(4));
  useCommand('line.choose6', () => line.choose(5));
  useCommand('line.choose7', () => line.choose(6));
  useCommand('line.choose8', () => line.choose(7));
  useCommand('line.choose9', () => line.choose(8));
}
