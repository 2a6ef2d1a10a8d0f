import { resolve } from 'node:path';
import type { Command } from 'commander';
import { listFilms } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import type { ProposedPlay } from '../../film/split/propose.ts';
import { acceptProposals, proposalsOf } from '../actions/proposals.ts';
import { splitFile, splitWork } from '../film/split-film.ts';
import type { Station } from '../station.ts';
import { type CommonOptions, common, type Done, withStation } from './common.ts';
import { type Exit, makeOutput } from './output.ts';

export function splitCommands(film: Command, done: Done): void {
  film
    .command('split')
    .description('propose the cuts, plays and snaps of a film file; needs no library')
    .argument('<path>', 'the film')
    .option('--json', 'write the result as JSON to standard output')
    .action(async (path: string, options: { json?: boolean }) => {
      const split = await splitFile(resolve(path));
      const { cuts, stops, plays } = split;
      makeOutput(options.json ?? false).print(split, () => [
        `${cuts.length} cuts${stops.length > 0 ? `, ${stops.length} of them stops of the recording` : ''}: ${cuts.join(' ')}`,
        ...playLines(plays),
      ]);
      done(0);
    });

  common(film.command('plays').description('propose the plays of a film of the library, and accept them'))
    .argument('<film>', 'name of the film')
    .option('--accept', 'make plays of all that are proposed, in one gesture that can be undone')
    .action((name: string, options: CommonOptions & { accept?: boolean }) =>
      withStation(options, done, async (station, output): Promise<Exit> => {
        const filmId = filmNamed(station, name);
        await splitWork(station, { filmId });
        const { proposals } = proposalsOf(station, filmId);
        const made = options.accept ? await acceptProposals(station, filmId, proposals) : null;
        output.print({ proposals, made: made?.playIds ?? [] }, () => [
          ...playLines(proposals),
          made ? `${made.playIds.length} plays made.` : 'Nothing was made of them: add --accept.',
        ]);
        return 0;
      }),
    );
}

function playLines(plays: readonly ProposedPlay[]): string[] {
  return plays.map(
    (p) =>
      `play ${p.play}, ${p.angle}: frames ${p.inFrame} to ${p.outFrame - 1}, snap ${p.snapFrame === null ? 'not found' : `about frame ${p.snapFrame}`}`,
  );
}

/** @throws ProblemError `film-unknown` */
function filmNamed(station: Station, name: string): string {
  const films = listFilms(station.library).filter((f) => f.name === name || f.id === name);
  const [film] = films;
  if (film && films.length === 1) return film.id;
  throw new ProblemError({
    code: 'film-unknown',
    message: `There ${films.length > 1 ? 'are several films' : 'is no film'} called ${name} in the library.`,
    kept: 'Nothing was changed.',
    next: 'Give the name that the Film room shows.',
  });
}
