/**
 * Lets the line settle what one word leaves open. The rules, and there are no others:
 * 1. a field that another word of the line can only mean is taken, unless the one term is of the other's family;
 * 2. a field or a result that makes no sense on this kind of play drops out;
 * 3. `d10` is a foul's yards only where the line or the play has a foul;
 * 4. as many equal words as there are meanings take one each: `none none` is no motion and no pressure.
 * A rule never takes the last meaning from a word, and what a rule does not settle is asked.
 */
import type { FieldValue } from '../values.ts';
import type { Draft, Reading } from './readings.ts';
import { isOutOfPlace, kindOfResult } from './shorthand.ts';

export interface PlayKindContext {
  /** term ids of what the play already has, where it has them */
  readonly kindId?: string | undefined;
  readonly resultId?: string | undefined;
  readonly hasFoul: boolean;
}

const termOf = (value: FieldValue | undefined) => (value?.kind === 'term' ? value.termId : undefined);

/** Whether two values of one field can stand together because one term is of the other's family. */
export function isRefinement(a: Reading, b: Reading): boolean {
  const [idA, idB] = [termOf(a.sets[0]?.value), termOf(b.sets[0]?.value)];
  if (a.sets.length !== 1 || b.sets.length !== 1 || idA === undefined || idB === undefined) return false;
  return Boolean(a.families?.includes(idB) || b.families?.includes(idA));
}

interface Claim {
  readonly draft: number;
  readonly readings: readonly Reading[];
}

/** For each field, the drafts that can only mean it, whichever of its values. */
function takenFields(open: readonly (readonly Reading[])[]): Map<string, Claim[]> {
  const taken = new Map<string, Claim[]>();
  open.forEach((readings, draft) => {
    const [first, ...others] = readings;
    for (const { field } of first?.sets ?? []) {
      if (!others.every(({ sets }) => sets.some((set) => set.field === field))) continue;
      const claims = taken.get(field);
      if (claims) claims.push({ draft, readings });
      else taken.set(field, [{ draft, readings }]);
    }
  });
  return taken;
}

function valueIn(taken: ReadonlyMap<string, Claim[]>, field: string): FieldValue | undefined {
  const readings = taken.get(field)?.[0]?.readings ?? [];
  return readings.length === 1 ? readings[0]!.sets.find((set) => set.field === field)?.value : undefined;
}

function kindOnLine(taken: ReadonlyMap<string, Claim[]>, context: PlayKindContext): string | undefined {
  const said = termOf(valueIn(taken, 'playKind'));
  if (said) return said;
  const result = termOf(valueIn(taken, 'result'));
  const implied = result === undefined ? undefined : kindOfResult(result);
  return implied ?? context.kindId ?? (context.resultId ? kindOfResult(context.resultId) : undefined);
}

/** Equal words with as many meanings as there are words: each takes one. */
function shareOut(drafts: readonly Draft[], open: (readonly Reading[])[]): boolean {
  const groups = new Map<string, number[]>();
  open.forEach((readings, at) => {
    if (readings.length < 2 || drafts[at]!.fixed) return;
    const fields = readings.map((reading) => reading.sets[0]?.field);
    if (new Set(fields).size < readings.length) return;
    const key = readings.map((reading) => reading.insert).join('\n');
    groups.set(key, [...(groups.get(key) ?? []), at]);
  });
  let changed = false;
  for (const members of groups.values()) {
    if (members.length !== open[members[0]!]!.length) continue;
    members.forEach((at, nth) => {
      open[at] = [open[at]![nth]!];
    });
    changed = true;
  }
  return changed;
}

/** For each draft, the readings that the rules leave. */
export function settle(drafts: readonly Draft[], context: PlayKindContext): (readonly Reading[])[] {
  const open: (readonly Reading[])[] = drafts.map((draft) => draft.readings);
  for (let changed = true; changed; ) {
    changed = false;
    const taken = takenFields(open);
    const kindId = kindOnLine(taken, context);
    const hasFoul = context.hasFoul || taken.has('penalty');
    const isFree = (reading: Reading, at: number) =>
      reading.sets.every(({ field }) =>
        (taken.get(field) ?? []).every(
          (claim) => claim.draft === at || claim.readings.some((other) => isRefinement(reading, other)),
        ),
      );
    const makesSense = (reading: Reading) =>
      kindId === undefined ||
      reading.sets.every(({ field, value }) => !isOutOfPlace(kindId, field, termOf(value)));
    open.forEach((readings, at) => {
      if (readings.length < 2 || drafts[at]!.fixed) return;
      let left = readings;
      const narrow = (keep: (reading: Reading) => boolean) => {
        const kept = left.filter(keep);
        if (kept.length > 0) left = kept;
      };
      narrow((reading) => isFree(reading, at));
      narrow(makesSense);
      if (left.some((reading) => reading.needsFoul))
        narrow((reading) => Boolean(reading.needsFoul) === hasFoul || !hasFoul);
      if (left.length === readings.length) return;
      open[at] = left;
      changed = true;
    });
    if (!changed) changed = shareOut(drafts, open);
  }
  return open;
}
