import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { findGame } from '../../../db/repositories/games.ts';
import { ProblemError } from '../../../football/result.ts';
import { lockPlay } from '../actions/clip-lock.ts';
import { clipOfFile } from '../actions/clip-of-file.ts';
import { addFilms } from '../film/add-films.ts';
import type { Angle } from '../views.ts';
import { type CommonOptions, common, type Done, wholeNumber, withStation } from './common.ts';
import { filmFrames, frameLines } from './film-frames.ts';
import { type ProxyOptions, proxiesCommand } from './film-proxies.ts';
import { splitCommands } from './film-split.ts';
import { type Exit, makeOutput } from './output.ts';

const angleOption = () =>
  new Option('--angle <angle>', 'from where the film was taken').choices(['sideline', 'endzone', 'other']);

export function filmCommands(program: Command, done: Done): void {
  const film = program.command('film').description('bring film in');
  common(film.command('add').description('bring files or folders in to a game'))
    .argument('<paths...>', 'film files, or folders of them')
    .requiredOption('--game <title>', 'the game; made when it is not there')
    .addOption(angleOption())
    .option('--one-play-per-file', 'each file is one play (else plays are marked later)')
    .action(
      (paths: string[], options: CommonOptions & { game: string; angle?: Angle; onePlayPerFile?: boolean }) =>
        withStation(options, done, async (station, output): Promise<Exit> => {
          const report = await addFilms(station, {
            paths,
            gameTitle: options.game,
            angle: options.angle ?? null,
            onePlayPerFile: options.onePlayPerFile ?? false,
          });
          const { added, refused, plays, proxies } = report;
          output.print(
            { added: added.map(({ known: _, angle: __, ...f }) => f), refused, plays, proxies },
            () => [
              ...added.map(
                (f) =>
                  `${f.path}: ${f.frames} frames, ${f.fps.toFixed(2)} fps, ${f.width}x${f.height} ${f.codec}`,
              ),
              `${added.length} films, ${plays.made} plays made, ${plays.paired} paired with another angle.`,
            ],
          );
          if (proxies > 0)
            output.say(
              `${proxies} of them need a proxy for the window: made when it is open, or now with film proxies --make.`,
            );
          for (const r of refused) output.say(`Refused ${r.path}: ${r.reason}`);
          if (refused.length === 0) return 0;
          return added.length > 0 ? 1 : 2;
        }),
    );

  film
    .command('frames')
    .description('the frame table of a film file: its frames, key frames and times; needs no library')
    .argument('<path>', 'a film file')
    .option('--json', 'write the result as JSON to standard output')
    .action(async (path: string, options: { json?: boolean }) => {
      const output = makeOutput(options.json ?? false);
      const frames = await filmFrames(resolve(path));
      output.print(frames, () => frameLines(frames));
      done(0);
    });

  common(film.command('proxies').description('list proxies, make them, drop them, change how they are kept'))
    .argument('[films...]', 'names of films; without them, all')
    .option('--make', 'make the proxies that are needed and missing; with names, of these films in any case')
    .option('--drop', 'remove proxies')
    .option('--limit <gigabytes>', 'all proxies together take no more than this', Number)
    .option('--height <lines>', 'proxies made from now on are no higher than this', Number)
    .action((names: string[], options: CommonOptions & ProxyOptions) =>
      withStation(options, done, (station, output) => proxiesCommand(station, names, options, output)),
    );

  splitCommands(film, done);

  const clip = program.command('clip').description('clips of plays');
  common(clip.command('add').description('make a clip of a play, or change it'))
    .requiredOption('--game <title>', 'the game')
    .requiredOption('--play <number>', 'the play', wholeNumber('The play'))
    .requiredOption('--film <path>', 'the film')
    .requiredOption('--in <frame>', 'first frame', wholeNumber('The in-frame'))
    .requiredOption('--out <frame>', 'first frame after it', wholeNumber('The out-frame'))
    .addOption(angleOption())
    .action(
      (
        options: CommonOptions & {
          game: string;
          play: number;
          film: string;
          in: number;
          out: number;
          angle?: Angle;
        },
      ) =>
        withStation(options, done, async (station, output): Promise<Exit> => {
          const made = await clipOfFile(station, {
            gameTitle: options.game,
            playNumber: options.play,
            path: resolve(options.film),
            inFrame: options.in,
            outFrame: options.out,
            angle: options.angle ?? null,
          });
          output.print(made, () => [
            `${findGame(station.library, options.game)?.title ?? options.game}, play ${options.play}: ${made.angle} ${made.inFrame} to ${made.outFrame}.`,
          ]);
          return 0;
        }),
    );

  common(clip.command('lock').description('hold two angles of a play to one instant by hand'))
    .requiredOption('--game <title>', 'the game')
    .requiredOption('--play <number>', 'the play', wholeNumber('The play'))
    .option('--frames <frames...>', 'two angles with a frame of each, as sideline=120 endzone=97')
    .option('--clear', 'let the snap, the time code or the clips’ starts decide again')
    .action((options: CommonOptions & { game: string; play: number; frames?: string[]; clear?: boolean }) =>
      withStation(options, done, (station, output): Exit => {
        const locked = lockPlay(station, {
          gameTitle: options.game,
          playNumber: options.play,
          frames: options.clear ? null : lockFrames(options.frames ?? []),
        });
        output.print(locked, () => [
          `${options.game}, play ${options.play}: the angles are ${locked.locked ? 'held by hand' : 'no longer held by hand'}.`,
        ]);
        return 0;
      }),
    );
}

/** @throws ProblemError `lock-frames` */
function lockFrames(words: readonly string[]): [[Angle, number], [Angle, number]] {
  const read = words.map((word): [Angle, number] | null => {
    const [, angle, frame] = /^(sideline|endzone|other)=(\d+)$/.exec(word) ?? [];
    return angle ? [angle as Angle, Number(frame)] : null;
  });
  const [lead, mate] = read;
  if (read.length === 2 && lead && mate && lead[0] !== mate[0]) return [lead, mate];
  throw new ProblemError({
    code: 'lock-frames',
    message: `“${words.join(' ')}” does not name two angles and a frame of each.`,
    kept: 'Nothing was changed.',
    next: 'Write them as sideline=120 endzone=97, or give --clear.',
  });
}
