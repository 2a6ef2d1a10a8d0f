import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { Split } from '../../film/split/splitter.ts';
import { splitFile } from '../film/split-film.ts';
import type { Done } from './common.ts';
import { makeOutput } from './output.ts';

export function splitCommands(film: Command, done: Done): void {
  film
    .command('split')
    .description('propose the cuts, plays and snaps of a film file; needs no library')
    .argument('<path>', 'the film')
    .option('--json', 'write the result as JSON to standard output')
    .action(async (path: string, options: { json?: boolean }) => {
      const split = await splitFile(resolve(path));
      makeOutput(options.json ?? false).print(split, () => splitLines(split));
      done(0);
    });
}

function splitLines({ cuts, stops, plays }: Split): string[] {
  return [
    `${cuts.length} cuts${stops.length > 0 ? `, ${stops.length} of them stops of the recording` : ''}: ${cuts.join(' ')}`,
    ...plays.map(
      (p) =>
        `play ${p.play}, ${p.angle}: frames ${p.inFrame} to ${p.outFrame - 1}, snap ${p.snapFrame === null ? 'not found' : `about frame ${p.snapFrame}`}`,
    ),
  ];
}
