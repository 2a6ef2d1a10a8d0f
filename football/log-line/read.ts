/** Reads a log line: what every word means, what the line changes, and what must be settled first. */
import { type FieldValue, sameValue } from '../values.ts';
import { draftLine } from './draft.ts';
import { spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { numberOffers, offersFor } from './offers.ts';
import type { Draft, Reading, Scope } from './readings.ts';
import { isRefinement, type PlayKindContext, settle } from './settle.ts';
import { displayOf } from './spell.ts';
import type {
  Candidate,
  FieldChange,
  LineChange,
  LineProblem,
  LogLineContext,
  LogLineReading,
  LogToken,
  TokenStatus,
} from './types.ts';

function termIdOf(
  index: VocabularyIndex,
  field: string,
  name: string | null | undefined,
): string | undefined {
  if (!name) return undefined;
  const key = spellingKey(name);
  const entry = index.entriesByField
    .get(field)
    ?.find(({ value }) => value.kind === 'term' && spellingKey(value.name) === key);
  return entry?.value.kind === 'term' ? entry.value.termId : undefined;
}

function kindContext(index: VocabularyIndex, context: LogLineContext): PlayKindContext {
  const { play } = context;
  return {
    kindId: termIdOf(index, 'playKind', play?.playKind),
    resultId: termIdOf(index, 'result', play?.result),
    hasFoul: Boolean(play?.penalty),
  };
}

/** The drafts that say a field, with their one reading, where they say different things. */
function fieldsInConflict(settled: readonly (readonly Reading[])[]): Map<string, number[]> {
  const sayers = new Map<string, { at: number; reading: Reading; set: FieldChange }[]>();
  settled.forEach((readings, at) => {
    const [reading] = readings;
    if (!reading || readings.length > 1) return;
    for (const set of reading.sets)
      sayers.set(set.field, [...(sayers.get(set.field) ?? []), { at, reading, set }]);
  });
  const conflicts = new Map<string, number[]>();
  for (const [field, said] of sayers) {
    const agrees = said.every((a, i) =>
      said.every(
        (b, j) => j <= i || sameValue(a.set.value, b.set.value) || isRefinement(a.reading, b.reading),
      ),
    );
    if (!agrees)
      conflicts.set(
        field,
        said.map(({ at }) => at),
      );
  }
  return conflicts;
}

/** One change per field; of a family and its member, the member stands. */
function changesOf(
  settled: readonly (readonly Reading[])[],
  isBlocked: (field: string) => boolean,
): LineChange[] {
  const changes = new Map<string, LineChange & { families: readonly string[] }>();
  settled.forEach((readings, via) => {
    const [reading] = readings;
    if (!reading || readings.length > 1) return;
    for (const { field, value } of reading.sets) {
      if (isBlocked(field)) continue;
      const before = changes.get(field);
      const families = reading.families ?? [];
      const isNarrower = before?.value.kind === 'term' && families.includes(before.value.termId);
      if (!before || isNarrower) changes.set(field, { field, value, via, families });
    }
  });
  return [...changes.values()].map(({ field, value, via }) => ({ field, value, via }));
}

function candidatesOf(index: VocabularyIndex, readings: readonly Reading[]): Candidate[] {
  return readings.flatMap(({ sets, insert }) => {
    const [first] = sets;
    if (!first) return [];
    return [
      {
        kind: 'value' as const,
        field: first.field,
        value: first.value,
        display: displayOf(index, sets),
        insert,
      },
    ];
  });
}

function statusOf(draft: Draft, readings: readonly Reading[], inConflict: boolean): TokenStatus {
  if (draft.incomplete) return 'incomplete';
  if (readings.length === 0) return 'unknown';
  if (readings.length > 1) return 'ambiguous';
  return inConflict ? 'conflict' : 'understood';
}

function problemOf(token: LogToken, draft: Draft, at: number): LineProblem | null {
  const place = { token: at, at: { start: token.start, end: token.end } };
  const meanings = token.candidates.map((candidate) => candidate.display).join(' or ');
  const trouble = draft.incomplete ?? draft.trouble;
  const canGrow = token.candidates.some(({ kind }) => kind === 'newTerm');
  switch (token.status) {
    case 'understood':
      return draft.remark ? { ...draft.remark, ...place, blocks: false } : null;
    case 'ambiguous':
      return {
        code: 'word-ambiguous',
        message: `“${token.text}” can mean ${meanings}.`,
        next: `Choose one, or write it as ${token.candidates[0]?.insert ?? 'field:value'}.`,
        ...place,
        blocks: true,
      };
    case 'conflict':
      return {
        code: 'field-said-twice',
        message: `“${token.text}” gives ${token.display ?? ''}, but another word of the line says otherwise.`,
        next: 'Take one of the two away.',
        ...place,
        blocks: true,
      };
    default:
      return {
        ...(trouble ?? {
          code: 'word-unknown',
          message: `“${token.text}” is no word of the playbook.`,
          next: canGrow
            ? 'Choose what was meant, or add it to the playbook as a new term.'
            : 'Choose what was meant.',
        }),
        ...place,
        blocks: true,
      };
  }
}

const lineScope = (changes: readonly LineChange[], scope: Scope): Scope => {
  const said = (key: string): FieldValue | undefined => changes.find(({ field }) => field === key)?.value;
  const [team, spot] = [said('possession'), said('yardsToGoal')];
  return {
    possession: team?.kind === 'term' ? team.name : team?.kind === 'clear' ? null : scope.possession,
    yardsToGoal: spot?.kind === 'number' ? spot.number : spot?.kind === 'clear' ? null : scope.yardsToGoal,
  };
};

function settleLine(drafts: readonly Draft[], kind: PlayKindContext) {
  const settled = settle(drafts, kind);
  const conflicts = fieldsInConflict(settled);
  return { settled, conflicts, changes: changesOf(settled, (field) => conflicts.has(field)) };
}

/**
 * Reads the line. Every character belongs to a token or is blank between tokens. Nothing is guessed: a word
 * that the rules of `settle` leave with two meanings is `ambiguous`, and `ready` is false until all is settled.
 */
export function readLogLine(
  text: string,
  index: VocabularyIndex,
  context: LogLineContext = {},
): LogLineReading {
  const kind = kindContext(index, context);
  const stored: Scope = {
    possession: context.play?.possession ?? null,
    yardsToGoal: context.play?.yardsToGoal ?? null,
  };
  let drafts = draftLine(index, text, stored);
  let line = settleLine(drafts, kind);
  // Players and goal-to-go depend on the possession and the spot that the line itself gives.
  const scope = lineScope(line.changes, stored);
  if (scope.possession !== stored.possession || scope.yardsToGoal !== stored.yardsToGoal) {
    drafts = draftLine(index, text, scope);
    line = settleLine(drafts, kind);
  }
  const { settled, conflicts, changes } = line;
  const inConflict = new Set([...conflicts.values()].flat());
  const taken = new Set(settled.flatMap((r) => (r.length === 1 ? r[0]!.sets.map(({ field }) => field) : [])));
  const tokens = drafts.map((draft, at): LogToken => {
    const readings = settled[at]!;
    const status = statusOf(draft, readings, inConflict.has(at));
    const sets = readings.length === 1 ? readings[0]!.sets : [];
    const [first] = sets;
    const word = text.slice(draft.start, draft.end);
    const candidates =
      status === 'ambiguous'
        ? candidatesOf(index, readings)
        : status === 'conflict'
          ? [...candidatesOf(index, readings), ...numberOffers(index, word, taken)]
          : status === 'understood'
            ? []
            : (draft.offers ?? offersFor(index, draft, taken));
    return {
      text: word,
      start: draft.start,
      end: draft.end,
      status,
      ...(first ? { field: first.field, value: first.value, display: displayOf(index, sets) } : {}),
      sets,
      candidates,
    };
  });
  const problems = tokens.flatMap((token, at) => problemOf(token, drafts[at]!, at) ?? []);
  return { tokens, changes, problems, ready: problems.every(({ blocks }) => !blocks) };
}
