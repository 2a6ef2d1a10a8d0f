import { resolve } from 'node:path';
import type { Command } from 'commander';
import { EXPECTED_POINTS_CAUTION } from '../../../football/expected-points/model.ts';
import { METRICS } from '../../../football/metrics/definitions.ts';
import {
  explosiveInWords,
  SUCCESS_VARIANTS,
  type SuccessVariant,
  successInWords,
} from '../../../football/metrics/settings.ts';
import { addExpectedPoints } from '../actions/expected-points-sheet.ts';
import { audit, box, situations } from '../actions/game-book.ts';
import { gameOrProblem } from '../actions/games.ts';
import { changeSettings, type SettingsChange, settings } from '../actions/settings.ts';
import { boxLines } from './box-lines.ts';
import { type CommonOptions, common, type Done, looking, wholeNumber, withStation } from './common.ts';
import { asColumns, makeOutput } from './output.ts';

export function gameCommands(program: Command, done: Done): void {
  common(
    program
      .command('audit')
      .description('what in the record of a game cannot be right, and what would settle it'),
  )
    .requiredOption('--game <title>', 'the game')
    .action((options: CommonOptions & { game: string }) =>
      looking(options, done, (station, output) => {
        const findings = audit(station, gameOrProblem(station, options.game).id);
        output.print(findings, () =>
          findings.length === 0
            ? ['Nothing stands in the way: every play follows from the one before.']
            : findings.map((f) => `Play ${f.playNumber ?? '?'}: ${f.message} ${f.settle}`),
        );
        return 0;
      }),
    );

  common(program.command('box').description('the box score of a game, in the level’s own way of counting'))
    .requiredOption('--game <title>', 'the game')
    .action((options: CommonOptions & { game: string }) =>
      looking(options, done, (station, output) => {
        const score = box(station, gameOrProblem(station, options.game).id);
        output.print(score, () => boxLines(score));
        return 0;
      }),
    );

  common(
    program
      .command('situations')
      .description('each play’s situation beside the one that the play before leads to'),
  )
    .requiredOption('--game <title>', 'the game')
    .action((options: CommonOptions & { game: string }) =>
      looking(options, done, (station, output) => {
        const rows = situations(station, gameOrProblem(station, options.game).id);
        const shown = (
          s: {
            down: number | null;
            distance: number | null;
            yardsToGoal: number | null;
            possession: string | null;
          } | null,
        ) =>
          s === null
            ? ''
            : `${s.possession ?? '?'} ${s.down ?? '-'}&${s.distance ?? '-'} at ${s.yardsToGoal ?? '?'}`;
        output.print(rows, () =>
          asColumns(
            ['play', 'recorded', 'predicted', 'why not'],
            rows.map((r) => [
              String(r.playNumber ?? ''),
              shown(r.recorded),
              shown(r.predicted),
              r.predicted ? '' : (r.reason ?? ''),
            ]),
          ),
        );
        return 0;
      }),
    );

  common(
    program
      .command('settings')
      .description('show or change how numbers are made: success variant, explosive yards'),
  )
    .option('--success <variant>', `one of ${SUCCESS_VARIANTS.join(', ')}`)
    .option('--explosive-run <yards>', 'a run of so many yards is explosive', wholeNumber('The yards'))
    .option('--explosive-pass <yards>', 'a pass of so many yards is explosive', wholeNumber('The yards'))
    .action(
      (options: CommonOptions & { success?: string; explosiveRun?: number; explosivePass?: number }) => {
        const change: SettingsChange = {
          ...(options.success === undefined ? {} : { success: options.success as SuccessVariant }),
          ...(options.explosiveRun === undefined ? {} : { explosiveRunYards: options.explosiveRun }),
          ...(options.explosivePass === undefined ? {} : { explosivePassYards: options.explosivePass }),
        };
        const isChange = Object.keys(change).length > 0;
        return (isChange ? withStation : looking)(options, done, (station, output) => {
          const now = isChange ? changeSettings(station, change) : settings(station);
          output.print(now, () => [
            `Success: ${successInWords(now.success)}.`,
            `Explosive: ${explosiveInWords(now)}.`,
          ]);
          return 0;
        });
      },
    );

  program
    .command('ep')
    .description('add expected points to a sheet of situations')
    .requiredOption('--sheet <csv>', 'with columns down, ydstogo, yardline_100, half_seconds_remaining')
    .requiredOption('--to <csv>', 'the sheet to write')
    .option('--json', 'write the report as JSON to standard output')
    .action(async (options: { sheet: string; to: string; json?: boolean }) => {
      const output = makeOutput(options.json ?? false);
      const report = await addExpectedPoints(resolve(options.sheet), resolve(options.to));
      output.print(report, () => [`Wrote ${report.path}: ${report.rows} rows with expected points.`]);
      output.say(EXPECTED_POINTS_CAUTION);
      if (report.refused.length > 0)
        output.say(
          `${report.refused.length} rows are no situation of a play from scrimmage and were left empty.`,
        );
      done(report.refused.length === 0 ? 0 : report.rows > 0 ? 1 : 2);
    });

  program
    .command('metrics')
    .description('every metric: name, formula, denominator, unit, source, caution')
    .option('--json', 'write them as JSON to standard output')
    .option('--library <file>', 'not needed: the definitions are the same for every library')
    .action((options: { json?: boolean }) => {
      const list = METRICS.map(
        ({ key, name, kind, formula, per, unit, decimals, source, caution, setting }) => ({
          key,
          name,
          kind,
          formula,
          denominator: per ?? null,
          unit,
          decimals,
          source,
          caution,
          setting: setting ?? null,
        }),
      );
      makeOutput(options.json ?? false).print(list, () =>
        list.map((m) => `${m.name} (${m.key}): ${m.formula}`),
      );
      done(0);
    });
}
