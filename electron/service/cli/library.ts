import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { checkLibrary } from '../../../db/check.ts';
import { createLibrary } from '../../../db/library.ts';
import type { Level } from '../../../football/play.ts';
import { backupTo } from '../actions/backup.ts';
import { vocabularyView } from '../actions/playbook.ts';
import { redo, undo } from '../actions/tags.ts';
import type { Station } from '../station.ts';
import { type CommonOptions, common, type Done, libraryPath, looking, withStation } from './common.ts';
import type { Exit } from './output.ts';
import { asColumns, makeOutput } from './output.ts';

export function libraryCommands(program: Command, done: Done): void {
  common(program.command('new').description('make a library with the first playbook in it'))
    .requiredOption('--team <name>', 'your team, as it is written in possession')
    .addOption(new Option('--level <level>', 'whose rules').choices(['ncaa', 'nfhs', 'nfl']).default('ncaa'))
    .action((options: CommonOptions & { team: string; level: Level }) => {
      const path = libraryPath(options);
      createLibrary(path, { team: options.team, level: options.level }).close();
      makeOutput(options.json ?? false).print(
        { library: path, team: options.team, level: options.level },
        () => [`Made ${path} for ${options.team}.`],
      );
      done(0);
    });

  common(
    program.command('fields').description('list every field: key, label, kind, terms with their families'),
  ).action((options: CommonOptions) =>
    looking(options, done, (station, output) => {
      const fields = fieldList(station);
      output.print(fields, () =>
        asColumns(
          ['key', 'label', 'kind', 'terms'],
          fields.map((f) => [f.key, f.label, f.kind, f.terms?.map((t) => t.name).join(', ') ?? '']),
        ),
      );
      return 0;
    }),
  );

  for (const [name, take] of [
    ['undo', undo],
    ['redo', redo],
  ] as const) {
    common(
      program
        .command(name)
        .description(name === 'undo' ? 'take the last change back' : 'take the last undo back'),
    ).action((options: CommonOptions) =>
      withStation(options, done, (station, output) => {
        const taken = take(station);
        output.print(
          {
            done: taken.label,
            playIds: taken.plays.map((p) => p.playId),
            undo: taken.undo,
            redo: taken.redo,
          },
          () => [
            taken.label === null
              ? `There is nothing to ${name}.`
              : `${name === 'undo' ? 'Took back' : 'Did again'}: ${taken.label}.`,
          ],
        );
        return 0;
      }),
    );
  }

  common(
    program.command('backup').description('write a copy of the library, checked, while it is in use or not'),
  )
    .requiredOption('--to <file>', 'the copy')
    .action((options: CommonOptions & { to: string }) =>
      looking(options, done, async (station, output): Promise<Exit> => {
        const to = resolve(options.to);
        const bytes = await backupTo(station.library, to);
        output.print({ path: to, bytes }, () => [`Wrote ${to}.`]);
        return 0;
      }),
    );

  common(
    program
      .command('check')
      .description('look the library over: integrity, references, journal against tables'),
  ).action((options: CommonOptions) =>
    looking(options, done, (station, output) => {
      const report = checkLibrary(station.library);
      output.print(report, () => [
        report.ok ? `Sound: ${report.edits} edits, and every row is as they made it.` : 'Not sound:',
        ...report.integrity.map((line) => `  integrity: ${line}`),
        ...report.foreignKeys.map(
          (f) => `  ${f.table} row ${f.row} refers to a missing row of ${f.refersTo}`,
        ),
        ...report.journal.map((j) => `  ${j.table} ${j.id} is not as the journal made it`),
      ]);
      if (!report.ok) output.say('Keep this file, and restore a backup made with `tapebook backup`.');
      return report.ok ? 0 : 1;
    }),
  );
}

interface ListedField {
  readonly key: string;
  readonly label: string;
  readonly kind: string;
  readonly help: string;
  readonly terms?: readonly { name: string; family: string | null; aliases: readonly string[] }[];
}

function fieldList(station: Station): ListedField[] {
  const { fields, terms } = vocabularyView(station);
  const names = new Map(terms.map((t) => [t.id, t.name]));
  return fields.map((f) => ({
    key: f.key,
    label: f.label,
    kind: f.kind,
    help: f.help,
    ...(f.kind === 'term'
      ? {
          terms: terms
            .filter((t) => t.field === f.key)
            .map((t) => ({
              name: t.name,
              family: t.parentId ? (names.get(t.parentId) ?? null) : null,
              aliases: t.aliases,
            })),
        }
      : {}),
  }));
}
