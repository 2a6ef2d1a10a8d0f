import { existsSync, readFileSync } from 'node:fs';
import type { Command } from 'commander';
import { ProblemError } from '../../../football/result.ts';
import { formatPlain } from '../../../football/values.ts';
import { playByNumber } from '../actions/games.ts';
import { logPlay } from '../actions/log-line.ts';
import { chosenFields, exportPlays, listPlays, plainPlays } from '../actions/sheets/export.ts';
import { importSheet, mapFor } from '../actions/sheets/import.ts';
import { GIVEN_MAP, type SheetMap } from '../actions/sheets/mapping.ts';
import { importOpenNames, type OpenImportReport } from '../actions/sheets/open-names.ts';
import { openSheet } from '../actions/sheets/preview.ts';
import { type CommonOptions, common, type Done, list, looking, wholeNumber, withStation } from './common.ts';
import type { Exit } from './output.ts';
import { asColumns, type Output } from './output.ts';

export function playCommands(program: Command, done: Done): void {
  const plays = program.command('plays').description('plays in and out');

  common(plays.command('import').description('bring in a sheet of plays, CSV or XLSX'))
    .argument('<sheet>', 'the file')
    .option('--game <title>', 'the game of all rows; else a column mapped to game says it')
    .option(
      '--map <json>',
      'how columns and values are read: JSON, a file of it, or nflverse for open play-by-play',
    )
    .action((path: string, options: CommonOptions & { game?: string; map?: string }) =>
      withStation(options, done, async (station, output): Promise<Exit> => {
        const sheet = await openSheet(path);
        const report =
          options.map === 'nflverse'
            ? importOpenNames(station, sheet, options.game ?? null)
            : importSheet(station, sheet, {
                map: mapFor(station, sheet, options.map === undefined ? null : readMap(options.map)),
                gameTitle: options.game ?? null,
              });
        const { imported, updated, newTerms, refused } = report;
        output.print(report, () => [
          `${imported} plays came in, ${updated} were updated, ${report.unchanged} were there already.`,
          ...(newTerms.length
            ? [`New terms: ${newTerms.map((t) => `${t.name} (${t.field})`).join(', ')}.`]
            : []),
        ]);
        for (const r of refused.slice(0, 20)) output.say(`Row ${r.row}, ${r.column}: ${r.reason}`);
        if (refused.length > 20) output.say(`... and ${refused.length - 20} more; --json lists them all.`);
        if (report.unread.length) output.say(`Not read: ${report.unread.join(', ')}.`);
        if ('unsaid' in report) sayUnsaid(report as OpenImportReport, output);
        if (refused.length === 0) return 0;
        return imported + updated + report.unchanged > 0 ? 1 : 2;
      }),
    );

  common(plays.command('list').description('list plays'))
    .option('--where <sql>', 'which plays: the WHERE clause of standard SQL over field keys')
    .option('--fields <keys>', 'which fields, comma between', list)
    .action((options: CommonOptions & { where?: string; fields?: string[] }) =>
      looking(options, done, (station, output) => {
        const rows = listPlays(station, options.where ?? '', options.fields ?? null);
        output.print(rows, () => {
          const fields = chosenFields(
            station,
            options.fields ?? [
              'game',
              'playNumber',
              'down',
              'distance',
              'yardsToGoal',
              'concept',
              'coverage',
              'result',
              'gain',
            ],
          );
          return asColumns(
            fields.map((f) => f.label),
            rows.map((row) => fields.map((f) => formatPlain(f, row[f.key] ?? null))),
          );
        });
        return 0;
      }),
    );

  common(plays.command('export').description('write plays as a sheet that can be brought in again'))
    .requiredOption('--to <file>', 'a .csv or .xlsx file')
    .option('--where <sql>', 'which plays')
    .option('--fields <keys>', 'which fields, comma between', list)
    .action((options: CommonOptions & { to: string; where?: string; fields?: string[] }) =>
      looking(options, done, async (station, output): Promise<Exit> => {
        const rows = await exportPlays(station, {
          where: options.where ?? '',
          fields: options.fields ?? null,
          to: options.to,
        });
        output.print({ rows, path: options.to }, () => [`Wrote ${rows} plays to ${options.to}.`]);
        return 0;
      }),
    );

  // a line may begin with a spot such as -35, which is no option
  common(program.command('log').description('tag a play with a log line').allowUnknownOption())
    .argument('<line>', 'the log line')
    .requiredOption('--game <title>', 'the game')
    .requiredOption('--play <number>', 'the play', wholeNumber('The play'))
    .option('--new-term <field:name...>', 'a word of the line that is new in the playbook')
    .action((line: string, options: CommonOptions & { game: string; play: number; newTerm?: string[] }) =>
      withStation(options, done, (station, output) => {
        const { playId } = playByNumber(station, options.game, options.play);
        const newTerms = (options.newTerm ?? []).map((text) => {
          const [field = '', ...name] = text.split(':');
          return { field, name: name.join(':') };
        });
        const { tokens } = logPlay(station, { playId, line, newTerms });
        const [play] = plainPlays(station, [playId]);
        const words = tokens.map((t) => ({
          text: t.text,
          means: t.display ?? '',
          fields: t.sets.map((s) => s.field),
        }));
        output.print({ play, words }, () => words.map((w) => `${w.text}: ${w.means}`));
        return 0;
      }),
    );
}

/** What the sheet could not say, counted by reason; the whole list stands in the JSON. */
function sayUnsaid({ skipped, unsaid }: OpenImportReport, output: Output): void {
  const counts = new Map<string, number>();
  for (const { field, reason } of unsaid)
    counts.set(`${field}: ${reason}`, (counts.get(`${field}: ${reason}`) ?? 0) + 1);
  if (skipped.length) output.say(`${skipped.length} rows are no plays.`);
  for (const [what, count] of counts)
    output.say(`Left empty on ${count} ${count === 1 ? 'play' : 'plays'}, ${what}`);
}

function readMap(text: string): Partial<SheetMap> {
  const isFile = !text.trimStart().startsWith('{') && existsSync(text);
  try {
    const map = GIVEN_MAP.safeParse(JSON.parse(isFile ? readFileSync(text, 'utf8') : text));
    if (map.success) return map.data as Partial<SheetMap>;
    const [issue] = map.error.issues;
    throw new Error(
      `${issue?.message ?? 'unknown'}${issue?.path.length ? ` at ${issue.path.join('.')}` : ''}`,
    );
  } catch (error) {
    throw new ProblemError(
      {
        code: 'map-unfit',
        message: `The map cannot be read: ${(error as Error).message}.`,
        kept: 'Nothing was brought in.',
        next: 'Give JSON such as {"columns":{"Dn":"down"},"values":{"hash":{"Left":"L"}}}, or a file of it.',
      },
      { cause: error },
    );
  }
}
