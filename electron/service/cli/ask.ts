import type { Command } from 'commander';
import { formatMetric, metricOf } from '../../../football/metrics/definitions.ts';
import { settingInWords } from '../../../football/metrics/settings.ts';
import { table } from '../actions/answers.ts';
import { cutups, makeCutup } from '../actions/cutups.ts';
import { settings } from '../actions/settings.ts';
import type { Angle, TableRow } from '../views.ts';
import { type CommonOptions, common, type Done, list, looking, withStation } from './common.ts';
import { exportCommand } from './export.ts';
import { asColumns } from './output.ts';
import { questionCommands } from './questions.ts';

export function askCommands(program: Command, done: Done): void {
  questionCommands(program, done);
  common(program.command('table').description('the efficiency table: rows by one field, columns by another'))
    .requiredOption('--rows <field>', 'a row for each of its values')
    .option('--cols <field>', 'a column for each of its values')
    .option('--where <sql>', 'which plays')
    .option('--metrics <keys>', 'which metrics, comma between', list)
    .option('--families', 'count a term as its family')
    .action(
      (
        options: CommonOptions & {
          rows: string;
          cols?: string;
          where?: string;
          metrics?: string[];
          families?: boolean;
        },
      ) =>
        looking(options, done, (station, output) => {
          const answer = table(station, {
            where: options.where ?? '',
            rows: options.rows,
            cols: options.cols ?? null,
            ...(options.metrics ? { metrics: options.metrics } : {}),
            families: options.families ?? false,
          });
          const flat = ({ key, col, metrics, playIds }: TableRow) => ({
            key,
            ...(col === undefined ? {} : { col }),
            ...metrics,
            playIds,
          });
          output.print({ rows: answer.rows.map(flat) }, () => {
            const shown = options.metrics ?? [
              'calls',
              'attempts',
              'completions',
              'completionPct',
              'yards',
              'yardsPerAttempt',
              'successRate',
              'explosiveRate',
            ];
            const cells = (row: TableRow) =>
              shown.map((key) => formatMetric(metricOf(key)!, row.metrics[key] ?? null));
            return asColumns(
              [
                options.rows,
                ...(options.cols ? [options.cols] : []),
                ...shown.map((key) => metricOf(key)?.name ?? key),
              ],
              [
                ...answer.rows.map((r) => [
                  word(r.key),
                  ...(options.cols ? [word(r.col ?? null)] : []),
                  ...cells(r),
                ]),
                ['all', ...(options.cols ? [''] : []), ...cells({ key: null, ...answer.total })],
              ],
            );
          });
          const chosen = settings(station);
          for (const choice of new Set(answer.metrics.map((key) => metricOf(key)?.setting))) {
            if (choice)
              output.say(
                `${choice === 'success' ? 'Success' : 'Explosive'}: ${settingInWords(choice, chosen)}.`,
              );
          }
          return 0;
        }),
    );

  const cutup = program.command('cutup').description('cut-ups');
  common(cutup.command('make').description('make a cut-up of the plays that a question finds'))
    .argument('<name>', 'its name')
    .requiredOption('--where <sql>', 'which plays')
    .option('--angles <angles>', 'which angles, in order', list)
    .action((name: string, options: CommonOptions & { where: string; angles?: string[] }) =>
      withStation(options, done, (station, output) => {
        const made = makeCutup(station, {
          name,
          where: options.where,
          ...(options.angles ? { angles: options.angles as Angle[] } : {}),
        });
        output.print(
          { cutupId: made.cutupId, name: made.name, plays: made.list.map((i) => i.playId) },
          () => [`Made ${made.name} with ${made.list.length} ${made.list.length === 1 ? 'play' : 'plays'}.`],
        );
        return 0;
      }),
    );
  common(cutup.command('list').description('list cut-ups')).action((options: CommonOptions) =>
    looking(options, done, (station, output) => {
      const all = cutups(station);
      output.print(all, () =>
        asColumns(
          ['name', 'plays', 'question'],
          all.map((c) => [c.name, String(c.items), c.where ?? '']),
        ),
      );
      return 0;
    }),
  );
  exportCommand(cutup, done);
}

function word(key: string | number | boolean | null): string {
  return key === null ? '—' : String(key);
}
