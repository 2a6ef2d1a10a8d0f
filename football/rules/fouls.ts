import type { FoulRule, MarkedFrom, Rules, Side, Standing } from './types.ts';

type When = FoulRule['when'];

interface Extras {
  readonly afd?: boolean;
  readonly lod?: boolean;
  readonly toSpot?: boolean;
}

/** A short way to write the rows of a table of fouls, every row with its reference. */
export function foul(
  name: string,
  by: Side | 'either',
  yards: number | 'spot',
  when: When,
  from: MarkedFrom,
  rule: string,
  standing: Standing,
  { afd = false, lod = false, toSpot = yards === 'spot' || lod }: Extras = {},
): FoulRule {
  return {
    foul: name,
    by,
    yards,
    automaticFirstDown: afd,
    lossOfDown: lod,
    toSpot,
    when,
    from,
    rule,
    standing,
  };
}

/** The level's rule for a foul by a side; null for a foul the table does not know. */
export function foulRule(rules: Rules, name: string | null, by: Side | null): FoulRule | null {
  if (name === null) return null;
  const key = name.trim().toLowerCase();
  const rows = rules.fouls.filter((row) => row.foul === key);
  return rows.find((row) => row.by === by) ?? rows.find((row) => row.by === 'either') ?? null;
}

/**
 * The yards of a penalty marked off from a spot: never more than half the distance to the goal line of the
 * team that fouled. A ball between two stripes counts at the first one ahead of the offense (NCAA
 * statistics rules, read in the 2013 to 2017 manuals), which makes the half round down against the
 * offense and up against the defense.
 * @param yardsToGoal of the offense at the spot of enforcement
 */
export function penaltyYards(full: number, by: Side, yardsToGoal: number): number {
  const half =
    by === 'offense'
      ? Math.floor((100 - yardsToGoal) / 2)
      : Math.min(Math.ceil(yardsToGoal / 2), yardsToGoal - 1);
  return Math.max(0, Math.min(full, half));
}
