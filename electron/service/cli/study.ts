import type { Command } from 'commander';
import { formatMetric, metricOf } from '../../../football/metrics/definitions.ts';
import { READ_GRADES } from '../../../football/reads/grade.ts';
import { USUAL_CONTEXT } from '../../../football/tendencies/contexts.ts';
import { reads } from '../actions/reads.ts';
import { sideChanges } from '../actions/side-changes.ts';
import { callsNow, tells, tendencies } from '../actions/tendencies.ts';
import type { CallShare, ContextNode } from '../tendency-views.ts';
import { type CommonOptions, common, type Done, list, looking } from './common.ts';
import { asColumns } from './output.ts';

interface WhoseOptions extends CommonOptions {
  readonly team: string;
  readonly side?: string;
  readonly contexts?: string[];
  readonly where?: string;
  readonly terms?: boolean;
}

function whose(command: Command): Command {
  return common(command)
    .requiredOption('--team <name>', 'whose calls')
    .option('--side <side>', 'offense or defense; the call says it where it is left out')
    .option('--contexts <keys>', `given what, in order, comma between (${USUAL_CONTEXT.join(',')})`, list)
    .option('--where <sql>', 'which plays')
    .option('--terms', 'count each term by itself and not as its family');
}

const DEFENSIVE = new Set(['coverage', 'front', 'pressure', 'rushers']);

function request(options: WhoseOptions, call: string) {
  const defensive = options.side ? options.side === 'defense' : DEFENSIVE.has(call);
  return {
    team: options.team,
    side: defensive ? ('defense' as const) : ('offense' as const),
    families: !options.terms,
    contexts: options.contexts ?? USUAL_CONTEXT,
    where: options.where ?? '',
  };
}

export function studyCommands(program: Command, done: Done): void {
  whose(program.command('tendencies').description('what a team calls, by context, tried on games not used'))
    .requiredOption('--call <field>', 'the field that is called: playKind, concept, formation, coverage, ...')
    .action((options: WhoseOptions & { call: string }) =>
      looking(options, done, (station, output) => {
        const view = tendencies(station, { ...request(options, options.call), call: options.call });
        output.print(view, () =>
          asColumns(
            ['context', 'plays', 'calls'],
            view.nodes.map((node) => [
              `${'  '.repeat(node.depth)}${node.depth === 0 ? 'all' : node.value}`,
              String(node.plays),
              sharesInWords(node),
            ]),
          ),
        );
        if (view.verdict) output.say(view.verdict);
        return 0;
      }),
    );

  whose(program.command('now').description('what a team will probably call in a situation'))
    .argument('<situation>', 'as in "2nd & 8, left hash, own 35, 11 personnel"')
    .requiredOption('--calls <fields>', 'the fields that are called, comma between', list)
    .action((given: string, options: WhoseOptions & { calls: string[] }) =>
      looking(options, done, (station, output) => {
        const view = callsNow(station, {
          ...request(options, options.calls[0] ?? ''),
          calls: options.calls,
          given,
        });
        output.print(view, () =>
          view.fields.flatMap((field) => [
            `${field.label}: ${field.steps.map((step) => `${step.label} ${step.plays}`).join(' > ')}`,
            ...asColumns(
              ['call', 'expected', 'counted', '95 %'],
              field.calls.map((c) => [c.call, percent(c.expected), counted(c), interval(c)]),
            ),
            ...(field.verdict ? [field.verdict] : []),
            '',
          ]),
        );
        return 0;
      }),
    );

  whose(program.command('tells').description('which tags give a team’s calls away'))
    .requiredOption('--call <field>', 'the field that is called')
    .option('--any-situation', 'compare plays of all downs and distances with each other')
    .option('--single', 'look at single tags only')
    .action((options: WhoseOptions & { call: string; anySituation?: boolean; single?: boolean }) =>
      looking(options, done, (station, output) => {
        const view = tells(station, {
          ...request(options, options.call),
          call: options.call,
          withinSituation: !options.anySituation,
          pairs: !options.single,
        });
        output.print(view, () =>
          asColumns(
            ['tag', 'call', 'with', 'without', 'bits', 'p'],
            view.tells.map((tell) => [
              tell.tags.map((tag) => `${tag.label} ${tag.value}`).join(' + '),
              view.callNames[tell.turns] ?? '',
              `${tell.counts[tell.turns]} of ${tell.plays.length}`,
              `${tell.otherCounts[tell.turns]} of ${tell.others}`,
              tell.bits.toFixed(3),
              tell.adjusted.toFixed(3),
            ]),
          ),
        );
        output.say(
          `${view.looked} tags and pairs looked at, calls shuffled ${view.shuffles} times; p is corrected for looking at all of them.`,
        );
        return 0;
      }),
    );

  common(program.command('reads').description('throws graded by the read rules, and what each grade came to'))
    .option('--team <name>', 'whose passes; every team’s where it is left out')
    .option('--where <sql>', 'which plays')
    .action((options: CommonOptions & { team?: string; where?: string }) =>
      looking(options, done, (station, output) => {
        const view = reads(station, { team: options.team ?? '', where: options.where ?? '' });
        output.print(view, () => [
          ...asColumns(
            ['read', 'throws', ...view.metrics.map((key) => metricOf(key)?.name ?? key)],
            view.lines.map((line) => [
              line.grade,
              String(line.playIds.length),
              ...view.metrics.map((key) => formatMetric(metricOf(key)!, line.metrics[key] ?? null)),
            ]),
          ),
          '',
          ...asColumns(
            ['the key', 'ball goes to', ...READ_GRADES],
            [...view.byKey, ...view.byOptionRoute].map((line) => [
              line.name,
              line.detail ?? '–',
              ...READ_GRADES.map((grade) => String(line.plays[grade].length)),
            ]),
          ),
        ]);
        return 0;
      }),
    );

  common(program.command('side-changes').description('how far outside receivers run to change sides'))
    .option('--where <sql>', 'which plays')
    .action((options: CommonOptions & { where?: string }) =>
      looking(options, done, (station, output) => {
        const view = sideChanges(station, options.where ?? '');
        output.print(view, () =>
          asColumns(
            ['game', 'receiver', 'changes', 'yards', 'miles'],
            view.lines.map((line) => [
              line.game,
              line.receiver,
              String(line.changes),
              line.yards.toFixed(0),
              line.miles.toFixed(2),
            ]),
          ),
        );
        if (view.lines.length === 0)
          output.say(
            view.untagged === 0
              ? 'No play says where the outside receivers line up.'
              : `${view.untagged} plays do not say where the outside receivers line up (fields leftOutside and rightOutside).`,
          );
        return 0;
      }),
    );
}

function sharesInWords(node: ContextNode): string {
  return node.calls
    .slice(0, 6)
    .map((c) => `${c.call} ${percent(c.share)} (${c.count})`)
    .join(', ');
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

function counted(call: CallShare): string {
  return String(call.count);
}

function interval({ wilson: [low, high] }: CallShare): string {
  return `${Math.round(100 * low)} to ${Math.round(100 * high)} %`;
}
