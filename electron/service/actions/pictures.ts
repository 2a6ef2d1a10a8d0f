import type { GroupBy } from '../../../db/columns/group.ts';
import type { CountedGroup } from '../../../db/columns/table.ts';
import { COUNTER_INDEX, COUNTERS, type Counter } from '../../../football/metrics/facts.ts';
import { SMALL_SAMPLE } from '../../../football/metrics/metric.ts';
import { wilson } from '../../../football/metrics/wilson.ts';
import { ProblemError } from '../../../football/result.ts';
import { keyLabel } from '../../../football/vocabulary/key-label.ts';
import type { PictureMark, PictureView } from '../picture-views.ts';
import type { Station } from '../station.ts';
import { readQuestion } from './answers.ts';

interface Picture {
  readonly name: string;
  readonly title: string;
  readonly note: string;
  readonly unit: PictureView['unit'];
  /** fields: the panels, then the bands */
  readonly panel: GroupBy | null;
  readonly band: GroupBy;
  /** `share`: counted plays of the band out of those of its panel. `rate`: a counter out of another. `sum`: a counter */
  readonly value:
    | { readonly of: 'share'; readonly counter: Counter }
    | { readonly of: 'rate'; readonly over: Counter; readonly under: Counter }
    | { readonly of: 'sum'; readonly counter: Counter };
  /** a number is sorted into bands of this width */
  readonly width?: number;
}

/** Every picture, defined once: what it counts, out of what. */
export const PICTURES: readonly Picture[] = [
  {
    name: 'field-map',
    title: 'Throws across the field: completion by depth, from each hash',
    note: 'Completions / attempts in bands of ten air yards, one panel a hash.',
    unit: '%',
    panel: { field: 'hash' },
    band: { field: 'airYards' },
    value: { of: 'rate', over: 'completions', under: 'attempts' },
    width: 10,
  },
  {
    name: 'coverage',
    title: 'Coverage by down',
    note: 'Calls against the coverage family / calls of the down whose coverage is tagged.',
    unit: '%',
    panel: { field: 'down' },
    band: { field: 'coverage', families: true },
    value: { of: 'share', counter: 'calls' },
  },
  {
    name: 'tree',
    title: 'What is called, by formation',
    note: 'Calls of the concept / calls of the formation whose concept is tagged.',
    unit: '%',
    panel: { field: 'formation', families: true },
    band: { field: 'concept', families: true },
    value: { of: 'share', counter: 'calls' },
  },
  {
    name: 'drives',
    title: 'Yards of each drive',
    note: 'Sum of the gains of the drive’s calls; penalty yards are not in it.',
    unit: 'yd',
    panel: { field: 'game' },
    band: { field: 'drive' },
    value: { of: 'sum', counter: 'yards' },
  },
  {
    name: 'targets',
    title: 'Target share',
    note: 'Targets of the player / targets of all whose target is tagged.',
    unit: '%',
    panel: null,
    band: { field: 'target' },
    value: { of: 'share', counter: 'targets' },
  },
  {
    name: 'throw-time',
    title: 'Time to throw',
    note: 'Dropbacks with snap and release stamped, in bands of a quarter second.',
    unit: 'plays',
    panel: null,
    band: { field: 'timeToThrow' },
    value: { of: 'sum', counter: 'throwTimeKnown' },
    width: 0.25,
  },
  {
    name: 'trend',
    title: 'Success by game, in the order of the season',
    note: 'Successful calls / calls with down, distance and gain. Ask for a concept to see its trend.',
    unit: '%',
    panel: null,
    band: { field: 'game' },
    value: { of: 'rate', over: 'successes', under: 'successKnown' },
  },
];

/**
 * One picture of the plays that a question finds.
 * @throws ProblemError `picture-unknown`, or why the question cannot be read
 */
export function picture(station: Station, where: string, name: string): PictureView {
  const one = PICTURES.find((each) => each.name === name);
  if (!one) {
    throw new ProblemError({
      code: 'picture-unknown',
      message: `There is no picture ${name}.`,
      next: `The pictures are ${PICTURES.map((each) => each.name).join(', ')}.`,
    });
  }
  const fields = station.vocabulary().fields;
  const sides = [...(one.panel ? [one.panel] : []), one.band];
  const { cells, total } = station
    .columns()
    .table(readQuestion(station, where), { rows: sides, counters: COUNTERS });
  const order = new Map(total.playIds.map((id, at) => [id, at]));
  const bands = new Map<string, Band>();
  for (const cell of cells) {
    const band = cell.row.at(-1) ?? null;
    const panel = one.panel ? (cell.row[0] ?? null) : '';
    if (band === null || panel === null) continue;
    const at = typeof band === 'number' && one.width ? Math.floor(band / one.width + 1e-9) * one.width : band;
    const words = one.width ? `${at} to ${Number(at) + one.width}` : keyLabel(fields.get(one.band.field), at);
    const inPanel = one.panel ? keyLabel(fields.get(one.panel.field), panel) : '';
    const id = JSON.stringify([inPanel, words]);
    const known = bands.get(id);
    const parts = known ? [...known.parts, cell] : [cell];
    bands.set(id, { panel: inPanel, band: words, parts });
  }
  const sum = (parts: readonly CountedGroup[], counter: Counter) =>
    parts.reduce((total, { sums }) => total + sums[COUNTER_INDEX[counter]]!, 0);
  const all = [...bands.values()];
  const marks = all.flatMap(({ panel, band, parts }): PictureMark[] => {
    const { value } = one;
    const playIds = playsOf(station, parts, order, value.of === 'rate' ? value.under : value.counter);
    if (value.of === 'sum') {
      const added = sum(parts, value.counter);
      const base = playIds.length;
      return base === 0 ? [] : [{ panel, band, value: added, interval: null, base, small: false, playIds }];
    }
    const over = sum(parts, value.of === 'rate' ? value.over : value.counter);
    const under =
      value.of === 'rate'
        ? sum(parts, value.under)
        : sum(
            all.filter((each) => each.panel === panel).flatMap((each) => each.parts),
            value.counter,
          );
    const interval = wilson(over, under);
    if (!interval || (value.of === 'share' && over === 0)) return [];
    return [
      {
        panel,
        band,
        value: (100 * over) / under,
        interval: [100 * interval[0], 100 * interval[1]],
        base: under,
        small: under < SMALL_SAMPLE,
        playIds,
      },
    ];
  });
  const label = (key: string) => fields.get(key)?.label ?? key;
  return {
    name,
    title: one.title,
    note: one.note,
    unit: one.unit,
    bandLabel: label(one.band.field),
    panelLabel: one.panel ? label(one.panel.field) : '',
    // games stand as the season went, not by the alphabet
    marks: one.band.field === 'game' ? inSeason(marks, order) : marks,
    needs: marks.length > 0 ? [] : sides.map((side) => label(side.field)),
  };
}

function inSeason(marks: readonly PictureMark[], order: ReadonlyMap<string, number>): PictureMark[] {
  const first = (mark: PictureMark) => order.get(mark.playIds[0] ?? '') ?? 0;
  return [...marks].sort((a, b) => first(a) - first(b));
}

interface Band {
  readonly panel: string;
  readonly band: string;
  readonly parts: readonly CountedGroup[];
}

/** The plays of some cells that a counter counts, in the order of play. */
function playsOf(
  station: Station,
  parts: readonly CountedGroup[],
  order: ReadonlyMap<string, number>,
  counter: Counter,
): string[] {
  const columns = station.columns();
  const ids = parts.flatMap((part) => [...part.playIds]).sort((a, b) => order.get(a)! - order.get(b)!);
  const counts = counter === 'yards' ? 'calls' : counter;
  return ids.filter((id) => columns.countPlays([id], [counts]).sums[0] !== 0);
}
