import { wilson } from '../../../football/metrics/wilson.ts';
import { ProblemError } from '../../../football/result.ts';
import { fitStrengths, growTree, nodesOf, sharesAlong } from '../../../football/tendencies/backoff.ts';
import { type CodedPlays, codePlays } from '../../../football/tendencies/coded.ts';
import { type ContextField, inCoachOrder } from '../../../football/tendencies/contexts.ts';
import { contextOf, readSituation } from '../../../football/tendencies/situation-entry.ts';
import { findTells } from '../../../football/tendencies/tells.ts';
import { tryGameByGame } from '../../../football/tendencies/trial.ts';
import { trialInWords } from '../../../football/tendencies/words.ts';
import { termKey } from '../../../football/vocabulary/terms.ts';
import type { Station } from '../station.ts';
import type {
  CallShare,
  ContextNode,
  NowField,
  NowRequest,
  NowView,
  TellsRequest,
  TellsView,
  TendencyRequest,
  TendencyView,
} from '../tendency-views.ts';
import { type CalledPlays, calledPlays, callField, contextsOf, hasFamilies } from './called-plays.ts';

/** What a team calls, by context. @throws ProblemError `field-unknown`, `team-unknown`, or why the question cannot be read */
export function tendencies(station: Station, request: TendencyRequest): TendencyView {
  const contexts = contextsOf(station, request.contexts);
  const called = calledPlays(station, request, request.call);
  const plays = code(called, contexts);
  const tree = growTree(plays);
  const strengths = fitStrengths(tree, plays);
  const trial = tryGameByGame(plays);
  const order = callsByCount(plays);
  const members = tree.nodes.map((): number[] => []);
  for (const [i, path] of tree.paths.entries()) for (const node of path) members[node]!.push(i);
  const nodes: ContextNode[] = [];
  const visit = (node: number, parent: number, path: readonly number[], value: string): void => {
    const at = nodes.length;
    const along = [...path, node];
    const shares = sharesAlong(tree, along, strengths);
    nodes.push({
      parent,
      depth: path.length,
      value,
      plays: members[node]!.length,
      calls: callShares(plays, members[node]!, shares).sort(
        (a, b) => order.indexOf(a.call) - order.indexOf(b.call),
      ),
    });
    const names = plays.values[path.length] ?? [];
    const children = [...tree.children[node]!].map(([value, child]) => ({ name: names[value]!, child }));
    const context = contexts[path.length];
    if (!context) return;
    const sorted = inCoachOrder(
      context.key,
      children.map((c) => c.name),
    );
    for (const name of sorted) visit(children.find((c) => c.name === name)!.child, at, along, name);
  };
  if (plays.playIds.length > 0) visit(0, -1, [], '');
  return {
    playIds: plays.playIds,
    games: plays.gameCount,
    untagged: called.untagged,
    callNames: order,
    levels: contexts.map(({ key, label }, i) => ({
      key,
      label,
      strength: Number.isFinite(strengths[i + 1]!) ? strengths[i + 1]! : null,
    })),
    nodes,
    trial,
    verdict: plays.playIds.length === 0 ? '' : trialInWords(trial),
  };
}

/**
 * What a team will probably call in a situation as it is said.
 * @throws ProblemError `situation-word` pointing at the word, and as `tendencies`
 */
export function callsNow(station: Station, request: NowRequest): NowView {
  const contexts = contextsOf(station, null);
  const read = readSituation(request.given, { contexts, termsSpelled: termsSpelled(station) });
  if (!read.ok) throw new ProblemError(read.problem);
  const known = contextOf(read.value, contexts);
  // the order that the coach set, then that of the list
  const rank = (key: string) => {
    const at = request.contexts.indexOf(key);
    return at < 0 ? request.contexts.length : at;
  };
  known.sort((a, b) => rank(a.context.key) - rank(b.context.key));
  const values = known.map(({ context, value }) => ({
    context,
    value: request.families ? rootValue(station, context.key, value) : value,
  }));
  return {
    said: values.map(({ context, value }) => ({ key: context.key, label: context.label, value })),
    fields: request.calls.map((call) => nowField(station, request, call, values)),
  };
}

type Given = { readonly context: ContextField; readonly value: string };

function nowField(station: Station, request: NowRequest, call: string, values: readonly Given[]): NowField {
  // what is asked for cannot be given
  const given = values.filter(({ context }) => context.key !== call);
  const plays = code(
    calledPlays(station, request, call),
    given.map(({ context }) => context),
  );
  const tree = growTree(plays);
  const path = nodesOf(
    tree,
    given.map(({ value }, f) => plays.values[f]!.indexOf(value)),
  );
  const last = path.at(-1)!;
  const rows = [...tree.paths.keys()].filter((i) => tree.paths[i]!.includes(last));
  const shares = sharesAlong(tree, path, fitStrengths(tree, plays));
  const trial = tryGameByGame(plays);
  return {
    call,
    label: callField(station, call).label,
    playIds: plays.playIds,
    steps: [
      { label: 'all plays', plays: plays.playIds.length },
      ...given.map(({ value }, f) => ({
        label: value,
        plays: path[f + 1] === undefined ? 0 : tree.nodes[path[f + 1]!]!.total.plays,
      })),
    ],
    calls:
      plays.playIds.length === 0
        ? []
        : callShares(plays, rows, shares, true).sort((a, b) => b.expected - a.expected),
    trial,
    verdict: plays.playIds.length === 0 ? '' : trialInWords(trial),
  };
}

/** The tags that change what a team calls. @throws ProblemError as `tendencies` */
export function tells(station: Station, request: TellsRequest): TellsView {
  const called = calledPlays(station, request, request.call);
  // a field is no tell of itself, and the groups that situations are made of are no tells within them
  const skipped = new Set([
    request.call,
    ...(request.withinSituation ? ['down', 'toGo'] : []),
    ...(AFTER_THE_CALL[request.call] ?? []),
  ]);
  const contexts = contextsOf(station, null).filter(({ key }) => !skipped.has(key));
  const [down, distance] = contextsOf(station, ['down', 'toGo']);
  const found = findTells({
    calls: called.rows.map((row) => row.call),
    fields: contexts.map((context) => ({
      key: context.key,
      values: called.rows.map((row) => row.contextValue(context)),
    })),
    situations: called.rows.map((row) =>
      request.withinSituation ? `${row.contextValue(down!)} ${row.contextValue(distance!)}` : 'all',
    ),
    pairs: request.pairs,
  });
  const labels = new Map(contexts.map(({ key, label }) => [key, label]));
  return {
    playIds: called.rows.map((row) => row.playId),
    callNames: found.callNames,
    tells: found.tells.slice(0, SHOWN_TELLS).map((tell) => {
      const others = tell.otherCounts.reduce((a, b) => a + b, 0);
      const changes = Array.from(tell.counts, (n, call) =>
        Math.abs(n / tell.plays.length - tell.otherCounts[call]! / others),
      );
      return {
        tags: tell.tags.map(([key, value]) => ({ key, label: labels.get(key) ?? key, value })),
        plays: [...tell.plays],
        others,
        counts: [...tell.counts],
        otherCounts: [...tell.otherCounts],
        bits: tell.bits,
        adjusted: tell.adjusted,
        turns: changes.indexOf(Math.max(...changes)),
      };
    }),
    looked: found.looked,
    shuffles: found.shuffles,
    withinSituation: request.withinSituation,
  };
}

const SHOWN_TELLS = 40;

/** Tags that are only another name of the call, or that can only be known once it is: they give nothing away. */
const AFTER_THE_CALL: Readonly<Record<string, readonly string[]>> = {
  playKind: ['concept', 'protection', 'route', 'readKey', 'coverage', 'front', 'pressure', 'rushers'],
  concept: ['protection', 'route', 'readKey', 'coverage', 'front', 'pressure', 'rushers'],
  formation: [
    'receivers',
    'concept',
    'protection',
    'route',
    'readKey',
    'coverage',
    'front',
    'pressure',
    'rushers',
  ],
  personnel: ['concept', 'protection', 'route', 'readKey', 'coverage', 'front', 'pressure', 'rushers'],
  motion: ['concept', 'protection', 'route', 'readKey', 'coverage', 'front', 'pressure', 'rushers'],
  protection: ['concept', 'route', 'readKey', 'coverage', 'front', 'pressure', 'rushers'],
  coverage: ['concept', 'protection', 'route', 'readKey', 'pressure', 'rushers'],
  front: ['concept', 'protection', 'route', 'readKey', 'pressure', 'rushers', 'coverage'],
  pressure: ['concept', 'protection', 'route', 'readKey', 'rushers', 'coverage'],
  rushers: ['concept', 'protection', 'route', 'readKey', 'pressure', 'coverage'],
};

function code(called: CalledPlays, contexts: readonly ContextField[]): CodedPlays {
  return codePlays(
    called.rows.map((row) => ({
      playId: row.playId,
      gameId: row.gameId,
      call: row.call,
      context: contexts.map((context) => row.contextValue(context)),
    })),
    contexts.length,
  );
}

function callsByCount(plays: CodedPlays): string[] {
  const counts = plays.callNames.map(() => 0);
  for (const call of plays.calls) counts[call]!++;
  return plays.callNames
    .map((name, i) => ({ name, count: counts[i]! }))
    .sort((a, b) => b.count - a.count || a.name.localeCompare(b.name, 'en', { numeric: true }))
    .map(({ name }) => name);
}

/** @param withUncounted also calls that have no play among the rows */
function callShares(
  plays: CodedPlays,
  rows: readonly number[],
  expected: Float64Array,
  withUncounted = false,
): CallShare[] {
  const byCall = plays.callNames.map((): number[] => []);
  for (const row of rows) byCall[plays.calls[row]!]!.push(row);
  return byCall.flatMap((own, call) =>
    own.length === 0 && !withUncounted
      ? []
      : [
          {
            call: plays.callNames[call]!,
            count: own.length,
            share: rows.length === 0 ? 0 : own.length / rows.length,
            wilson: wilson(own.length, rows.length) ?? ([0, 1] as const),
            expected: expected[call]!,
            plays: own,
          },
        ],
  );
}

function termsSpelled(station: Station): (text: string) => { field: string; name: string }[] {
  const bySpelling = new Map<string, { field: string; name: string }[]>();
  for (const { field, name, aliases } of station.vocabulary().terms) {
    for (const spelling of [name, ...aliases]) {
      const key = termKey(spelling);
      bySpelling.set(key, [...(bySpelling.get(key) ?? []), { field, name }]);
    }
  }
  return (text) => bySpelling.get(termKey(text)) ?? [];
}

function rootValue(station: Station, key: string, value: string): string {
  return hasFamilies(station, key) ? station.columns().families.rootOf(key, value) : value;
}
