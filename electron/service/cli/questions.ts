import type { Command } from 'commander';
import { formatMetric, metricOf } from '../../../football/metrics/definitions.ts';
import type { SituationLimits } from '../../../football/vocabulary/situation-limits.ts';
import { answer } from '../actions/answers.ts';
import { facets, whyNothing } from '../actions/facets.ts';
import {
  questionByName,
  questions,
  removeQuestion,
  renameQuestion,
  saveQuestion,
} from '../actions/questions.ts';
import { changeSituations, situations } from '../actions/situations.ts';
import { type CommonOptions, common, type Done, list, looking, withStation } from './common.ts';
import { asColumns, type Exit } from './output.ts';
import { type PivotOptions, pivotAnswer, pivotOptions } from './pivot.ts';

const LINE = ['calls', 'attempts', 'completionPct', 'yards', 'successRate', 'explosiveRate'];

interface AskOptions extends CommonOptions, PivotOptions {
  readonly facets?: string[] | true;
  readonly where?: string;
}

export function questionCommands(program: Command, done: Done): void {
  pivotOptions(
    common(
      program.command('ask').description('what a question finds: its numbers, a table, a picture, or values'),
    ),
  )
    .argument('[where]', 'the question, as a WHERE clause; every play without one')
    .option(
      '--facets [fields]',
      'every value with its count, of these fields (comma between) or of all',
      list,
    )
    .action((words: string | undefined, options: AskOptions) =>
      looking(options, done, async (station, output): Promise<Exit> => {
        const where = words ?? options.where ?? '';
        const tabled = await pivotAnswer(station, output, where, options);
        if (tabled !== null) return tabled;
        if (options.facets) {
          const found = facets(station, where, options.facets === true ? undefined : options.facets);
          output.print(found, () =>
            asColumns(
              ['field', 'value', 'plays'],
              found.facets.flatMap((facet) =>
                facet.values.map((v) => [facet.field, `${'  '.repeat(v.depth)}${v.label}`, String(v.plays)]),
              ),
            ),
          );
          return 0;
        }
        const found = answer(station, where);
        const why = found.count === 0 && where ? whyNothing(station, where) : null;
        output.print(why ? { ...found, why } : found, () => [
          `${found.count} ${found.count === 1 ? 'play' : 'plays'}`,
          ...LINE.map(
            (key) => `${metricOf(key)!.name}: ${formatMetric(metricOf(key)!, found.metrics[key] ?? null)}`,
          ),
        ]);
        for (const reason of why?.reasons ?? [])
          output.say(`No play has ${reason.conditions.join(' and ')}.`);
        for (const wider of why?.wider ?? [])
          output.say(`${wider.plays} without ${wider.without.join(' and ')}: ${wider.where || 'every play'}`);
        return 0;
      }),
    );

  const saved = program.command('questions').description('saved questions');
  common(saved.command('list').description('list saved questions')).action((options: CommonOptions) =>
    looking(options, done, (station, output) => {
      const all = questions(station);
      output.print(all, () =>
        asColumns(
          ['name', 'question'],
          all.map((q) => [q.name, q.where]),
        ),
      );
      return 0;
    }),
  );
  common(saved.command('save').description('save a question under a name, or change the one that has it'))
    .argument('<name>', 'its name')
    .requiredOption('--where <sql>', 'the question')
    .action((name: string, options: CommonOptions & { where: string }) =>
      withStation(options, done, (station, output) => {
        const made = saveQuestion(station, name, options.where);
        output.print(made, () => [`Saved ${made.name}.`]);
        return 0;
      }),
    );
  common(saved.command('rename').description('give a saved question another name; what asks for it follows'))
    .argument('<name>', 'its name')
    .argument('<to>', 'its new name')
    .action((name: string, to: string, options: CommonOptions) =>
      withStation(options, done, (station, output) => {
        const made = renameQuestion(station, questionByName(station, name).questionId, to);
        output.print(made, () => [`${name} is now ${made.name}.`]);
        return 0;
      }),
    );
  common(saved.command('remove').description('take a saved question away'))
    .argument('<name>', 'its name')
    .action((name: string, options: CommonOptions) =>
      withStation(options, done, (station, output) => {
        const left = removeQuestion(station, questionByName(station, name).questionId);
        output.print(left, () => [`Removed ${name}.`]);
        return 0;
      }),
    );

  const limits = common(
    program.command('zones').description('where the zones of the field, short and long downs begin'),
  );
  const KEYS: readonly (readonly [keyof SituationLimits, string, string])[] = [
    ['backedUpFrom', '--backed-up <yards>', 'backed up from so many yards to the goal'],
    ['midfieldFrom', '--midfield <yards>', 'midfield from'],
    ['fringeFrom', '--fringe <yards>', 'fringe from'],
    ['redZoneFrom', '--red-zone <yards>', 'red zone from'],
    ['goalLineFrom', '--goal-line <yards>', 'goal line from'],
    ['shortTo', '--short <yards>', 'short to so many yards to gain'],
    ['mediumTo', '--medium <yards>', 'medium to'],
    ['twoMinuteSeconds', '--two-minutes <seconds>', 'two minutes from so many seconds left in the half'],
  ];
  for (const [, flag, help] of KEYS) limits.option(flag, help, Number);
  limits.action((options: CommonOptions & Record<string, unknown>) => {
    const named = (flag: string) =>
      flag.slice(2, flag.indexOf(' ')).replace(/-(.)/g, (_, c: string) => c.toUpperCase());
    const change = Object.fromEntries(
      KEYS.flatMap(([key, flag]) =>
        typeof options[named(flag)] === 'number' ? [[key, options[named(flag)]]] : [],
      ),
    ) as Partial<SituationLimits>;
    const isChange = Object.keys(change).length > 0;
    return (isChange ? withStation : looking)(options, done, (station, output) => {
      const now = isChange ? changeSituations(station, change) : situations(station);
      output.print(now, () =>
        asColumns(
          ['limit', 'value'],
          Object.entries(now).map(([k, v]) => [k, String(v)]),
        ),
      );
      return 0;
    });
  });
}
