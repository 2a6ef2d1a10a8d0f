import type { GroupBy, GroupValue } from '../../../db/columns/group.ts';
import type { CountedGroup } from '../../../db/columns/table.ts';
import { listGames } from '../../../db/repositories/games.ts';
import { type MetricDefinition, metricValue } from '../../../football/metrics/definitions.ts';
import { COUNTERS } from '../../../football/metrics/facts.ts';
import { both, EVERY_PLAY, type Question } from '../../../football/question/ast.ts';
import { ProblemError } from '../../../football/result.ts';
import type {
  Baseline,
  PivotCell,
  PivotNumber,
  PivotPlace,
  PivotRequest,
  PivotSide,
  PivotView,
} from '../pivot-views.ts';
import type { Station } from '../station.ts';
import { metricsOrProblem, readQuestion } from './answers.ts';

const MOST_ROWS = 3;
const MOST_COLS = 2;

/**
 * A table of one to three fields by none to two. Every cell, subtotal and total is counted anew from its own plays, at
 * its own depth; nothing is summed from rates.
 * @throws ProblemError `table-unfit`, `field-unknown`, `metric-unknown`, or why a question cannot be read
 */
export function pivot(station: Station, request: PivotRequest): PivotView {
  const metrics = metricsOrProblem(request.metrics);
  const sides = sidesOf(station, request);
  const question = readQuestion(station, request.where);
  const counted = countAll(station, question, sides.rows, sides.cols);
  const base = request.baseline ? baselineOf(station, request, request.baseline) : null;
  const baseCells = base?.question ? countAll(station, base.question, sides.rows, sides.cols) : null;
  const rows = inTreeOrder([...counted.rows.values()]);
  const cols = inTreeOrder([...counted.cols.values()]);
  const total = counted.cells.get(placeId([], []));
  const cells: PivotCell[] = [];
  for (const [r, row] of rows.entries()) {
    for (const [c, col] of cols.entries()) {
      const id = placeId(row.key, col.key);
      const group = counted.cells.get(id);
      if (!group || !total) continue;
      const against =
        base === null ? null : baseCells ? (baseCells.cells.get(id)?.sums ?? null) : rest(total, group);
      cells.push({
        row: r,
        col: c,
        plays: group.plays,
        numbers: metrics.map((metric) => oneNumber(metric, group.sums, total.sums, against)),
      });
    }
  }
  const baseTotal = baseCells?.cells.get(placeId([], []));
  return {
    metrics: metrics.map((metric) => metric.key),
    rows,
    cols,
    cells,
    baseline: base && { label: base.label, plays: baseTotal?.plays ?? (baseCells ? 0 : (total?.plays ?? 0)) },
  };
}

/** The plays of a place of the table, in order. @throws ProblemError as `pivot` */
export function pivotPlays(station: Station, request: PivotRequest, place: PivotPlace): readonly string[] {
  const { rows, cols } = sidesOf(station, request);
  const { cells } = station.columns().table(readQuestion(station, request.where), {
    rows: [...rows.slice(0, place.row.length), ...cols.slice(0, place.col.length)],
    counters: [],
  });
  const wanted = JSON.stringify([...place.row, ...place.col]);
  return cells.find((cell) => JSON.stringify(cell.row) === wanted)?.playIds ?? [];
}

function sidesOf(station: Station, request: PivotRequest): { rows: GroupBy[]; cols: GroupBy[] } {
  const { rows, cols } = request;
  const fields = [...rows, ...cols];
  if (rows.length < 1 || rows.length > MOST_ROWS || cols.length > MOST_COLS) {
    throw new ProblemError({
      code: 'table-unfit',
      message: `A table has one to ${MOST_ROWS} fields down and none to ${MOST_COLS} across, not ${rows.length} and ${cols.length}.`,
      next: 'Take some out.',
    });
  }
  const twice = fields.find((key, at) => fields.indexOf(key) !== at);
  if (twice !== undefined) {
    throw new ProblemError({
      code: 'table-unfit',
      message: `The table has ${twice} twice.`,
      next: 'Take one of them out.',
    });
  }
  const known = station.vocabulary().fields;
  const group = (key: string): GroupBy => {
    const field = known.get(key);
    if (field) return { field: key, families: request.families && field.kind === 'term' };
    const near = known.nearest(key);
    throw new ProblemError({
      code: 'field-unknown',
      message: `There is no field ${key}.`,
      next: near ? `Did you mean ${near}?` : '`tapebook fields` lists all fields.',
    });
  };
  return { rows: rows.map(group), cols: cols.map(group) };
}

interface Counted {
  readonly cells: ReadonlyMap<string, CountedGroup>;
  readonly rows: ReadonlyMap<string, PivotSide>;
  readonly cols: ReadonlyMap<string, PivotSide>;
}

function countAll(
  station: Station,
  question: Question,
  rows: readonly GroupBy[],
  cols: readonly GroupBy[],
): Counted {
  const cells = new Map<string, CountedGroup>();
  const rowSides = new Map<string, PivotSide>();
  const colSides = new Map<string, PivotSide>();
  const store = station.columns();
  for (let down = 0; down <= rows.length; down++) {
    for (let across = 0; across <= cols.length; across++) {
      const table = store.table(question, {
        rows: rows.slice(0, down),
        cols: cols.slice(0, across),
        counters: COUNTERS,
      });
      for (const cell of down + across === 0 ? [{ row: [], col: [], ...pick(table.total) }] : table.cells) {
        cells.set(placeId(cell.row, cell.col), cell);
        if (across === 0) rowSides.set(placeId(cell.row, []), { key: cell.row, plays: cell.plays });
        if (down === 0) colSides.set(placeId([], cell.col), { key: cell.col, plays: cell.plays });
      }
    }
  }
  return { cells, rows: rowSides, cols: colSides };
}

const pick = ({ plays, sums, playIds }: CountedGroup): CountedGroup => ({ plays, sums, playIds });

function placeId(row: readonly GroupValue[], col: readonly GroupValue[]): string {
  return JSON.stringify([row, col]);
}

/** The whole, then each value with what stands under it; siblings keep the order in which they were counted. */
function inTreeOrder(sides: readonly PivotSide[]): PivotSide[] {
  const under = new Map<string, PivotSide[]>();
  for (const side of sides) {
    if (side.key.length === 0) continue;
    const parent = JSON.stringify(side.key.slice(0, -1));
    under.set(parent, [...(under.get(parent) ?? []), side]);
  }
  const walk = (side: PivotSide): PivotSide[] => [
    side,
    ...(under.get(JSON.stringify(side.key)) ?? []).flatMap(walk),
  ];
  return sides.filter((side) => side.key.length === 0).flatMap(walk);
}

/** Every play of the question is in the cell or not, so the others' counters are what is left of the whole. */
function rest(total: CountedGroup, group: CountedGroup): Float64Array | null {
  return group.plays === total.plays ? null : total.sums.map((sum, at) => sum - group.sums[at]!);
}

function oneNumber(
  metric: MetricDefinition,
  sums: Float64Array,
  total: Float64Array,
  against: Float64Array | null,
): PivotNumber {
  const { value, numerator, denominator, wilson } = metricValue(metric, sums, total);
  const compared = against && metric.denominator ? metricValue(metric, against, total).value : null;
  return { value, base: denominator, numerator, interval: wilson ?? null, against: compared };
}

interface BaselineQuestion {
  readonly label: string;
  /** null: what is left of the question beside the cell */
  readonly question: Question | null;
}

/** @throws ProblemError `baseline-unfit`, or why its question cannot be read */
function baselineOf(station: Station, request: PivotRequest, baseline: Baseline): BaselineQuestion {
  switch (baseline.kind) {
    case 'rest':
      return { label: 'all other plays of the question', question: null };
    case 'question':
      return {
        label: baseline.where.trim() === '' ? 'every play' : baseline.where,
        question: readQuestion(station, baseline.where),
      };
    case 'opponent':
      return {
        label: `games against ${baseline.opponent}`,
        question: both(withoutGame(station, request.where), gamesAgainst(station, baseline.opponent)),
      };
    case 'lastSeason': {
      const season = latestSeason(station, request.where) - 1;
      return {
        label: `season ${season}`,
        question: both(withoutGame(station, request.where), {
          kind: 'rule',
          field: 'season',
          operator: '=',
          value: season,
        }),
      };
    }
  }
}

/** The question without its conditions on game and season at the top, which would leave nothing to hold against. */
function withoutGame(station: Station, where: string): Question {
  const question = readQuestion(station, where);
  const ofGame = (each: Question) =>
    each.kind === 'rule' && (each.field === 'game' || each.field === 'season');
  if (ofGame(question)) return EVERY_PLAY;
  if (question.kind !== 'group' || question.combinator !== 'and' || question.not) return question;
  return { ...question, rules: question.rules.filter((each) => !ofGame(each)) };
}

function gamesAgainst(station: Station, opponent: string): Question {
  const titles = listGames(station.library)
    .filter((game) => game.opponent?.toLowerCase() === opponent.toLowerCase())
    .map((game) => game.title);
  if (titles.length > 0) return { kind: 'rule', field: 'game', operator: 'in', values: titles };
  throw new ProblemError({
    code: 'baseline-unfit',
    message: `There is no game against ${opponent}.`,
    next: `The opponents are ${station.vocabulary().opponents.join(', ') || 'none yet'}.`,
  });
}

function latestSeason(station: Station, where: string): number {
  const seasons = station
    .columns()
    .table(readQuestion(station, where), { rows: [{ field: 'season' }], counters: [] })
    .rows.map((row) => row.key[0])
    .filter((key) => typeof key === 'number');
  if (seasons.length > 0) return Math.max(...seasons);
  throw new ProblemError({
    code: 'baseline-unfit',
    message: 'No play of the question has a season.',
    next: 'Give its games a season in the Film room.',
  });
}
