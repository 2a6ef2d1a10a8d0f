import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { Report } from '../../../football/report/report.ts';
import type { ReportKind } from '../../../football/report/template.ts';
import { makeReport } from '../actions/report.ts';
import { writeReport } from '../film/write-report.ts';
import { type CommonOptions, common, type Done, looking } from './common.ts';
import { asColumns, type Exit } from './output.ts';

interface ReportOptions extends CommonOptions {
  readonly to?: string;
  readonly template?: string;
  readonly film?: boolean;
}

export function reportCommands(program: Command, done: Done): void {
  const report = program.command('report').description('reports: scouting, after a game, call sheet');
  const add = (usage: string, description: string) =>
    common(report.command(usage).description(description))
      .option('--to <path>', 'a .pdf, a .zip, or a folder; without it the report is printed here')
      .option('--template <name>', 'which template')
      .option('--film', 'put the film of its plays into the folder or .zip');
  const run = (kind: ReportKind, about: string | null, options: ReportOptions) =>
    looking(options, done, async (station, output): Promise<Exit> => {
      const request = { kind, about, template: options.template ?? null };
      if (options.to === undefined) {
        const made = makeReport(station, request);
        output.print(made, () => lines(made));
        return 0;
      }
      if (options.film)
        output.say('Film of student athletes leaves the library into what is written. Pass it on with care.');
      const written = await writeReport(
        station,
        { ...request, to: resolve(options.to), film: options.film ?? false },
        {
          progress: (part) => {
            if (process.stderr.isTTY) output.say(`${Math.round(part * 100)} %`);
          },
        },
      );
      output.print(written, () => [`Wrote ${written.path}.`]);
      return 0;
    });
  add('opponent <team>', 'a scouting report on a team').action((team: string, options: ReportOptions) =>
    run('opponent', team, options),
  );
  add('game <title>', 'a report on our own game').action((title: string, options: ReportOptions) =>
    run('game', title, options),
  );
  add('calls', 'a draft of the call sheet, by what has worked').action((options: ReportOptions) =>
    run('calls', null, options),
  );
}

function lines(report: Report): string[] {
  return [
    report.title,
    ...report.cautions,
    ...report.sections.flatMap((section) => [
      '',
      section.title.toUpperCase(),
      ...(section.empty === null
        ? section.tables.flatMap((table) => [
            ...(table.caption === null ? [] : ['', table.caption]),
            ...asColumns(
              table.columns,
              table.rows.map((row) =>
                row.map(
                  (cell) => `${cell.text}${cell.small ? ' *' : ''}${cell.detail ? ` (${cell.detail})` : ''}`,
                ),
              ),
            ),
          ])
        : [section.empty]),
    ]),
  ];
}
