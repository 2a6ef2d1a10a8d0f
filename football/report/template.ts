/** What a report asks, and in which order: a staff may change it, copy it and take it back to the built-in one. */

export const REPORT_KINDS = ['opponent', 'game', 'calls'] as const;
/** `opponent`: scouting; `game`: our own game, after it; `calls`: a draft of the call sheet */
export type ReportKind = (typeof REPORT_KINDS)[number];

export const SECTION_SHAPES = [
  'shares',
  'efficiency',
  'ranked',
  'callSheet',
  'explosives',
  'box',
  'drives',
  'players',
] as const;
/**
 * `shares`: how often each value of `cols` was called, per row. `efficiency`: metrics per row. `ranked`: best and worst
 * rows by the bound of their success rate. `callSheet`: the same per situation. `explosives`: a list of plays.
 */
export type SectionShape = (typeof SECTION_SHAPES)[number];

export const SECTION_SIDES = ['offense', 'defense', 'both'] as const;
/** Whether the report's team had the ball on the plays of the section. */
export type SectionSide = (typeof SECTION_SIDES)[number];

export interface TemplateSection {
  readonly key: string;
  readonly title: string;
  readonly on: boolean;
  readonly shape: SectionShape;
  readonly side: SectionSide;
  /** a question that narrows the plays further; empty for none */
  readonly where: string;
  /** a field, or a set of situations as `set:zone` */
  readonly rows: string;
  /** the field whose values `shares` counts; the field that `callSheet` ranks */
  readonly cols: string | null;
  /** metrics of `efficiency` */
  readonly metrics: readonly string[];
  /** at most so many rows of a table or plays of a list */
  readonly length: number;
}

export interface ReportTemplate {
  readonly id: string;
  readonly name: string;
  readonly kind: ReportKind;
  /** rates on fewer plays than this are marked */
  readonly smallSample: number;
  readonly sections: readonly TemplateSection[];
}

const EFFICIENCY = ['calls', 'successRate', 'yards', 'explosiveRate'] as const;
const PASSING = ['dropbacks', 'attempts', 'completions', 'yardsPerAttempt', 'successRate', 'sacks'] as const;
const PASSES = "playKind = 'pass'";

function section(
  key: string,
  title: string,
  shape: SectionShape,
  side: SectionSide,
  more: Partial<TemplateSection> = {},
): TemplateSection {
  const plain = { where: '', rows: 'concept', cols: null, metrics: [...EFFICIENCY], length: 12 };
  return { key, title, on: true, shape, side, ...plain, ...more };
}

const RUN_PASS = { cols: 'playKind', where: "playKind IN ('run', 'pass')" } as const;

const OPPONENT: ReportTemplate = {
  id: 'opponent',
  name: 'Scouting report',
  kind: 'opponent',
  smallSample: 20,
  sections: [
    section('kind-down', 'Run or pass by down and distance', 'shares', 'offense', {
      ...RUN_PASS,
      rows: 'set:downAndDistance',
    }),
    section('kind-zone', 'Run or pass by zone', 'shares', 'offense', { ...RUN_PASS, rows: 'set:zone' }),
    section('kind-hash', 'Run or pass by hash', 'shares', 'offense', { ...RUN_PASS, rows: 'hash' }),
    section('kind-formation', 'Run or pass by formation', 'shares', 'offense', {
      ...RUN_PASS,
      rows: 'formation',
    }),
    section('kind-personnel', 'Run or pass by personnel', 'shares', 'offense', {
      ...RUN_PASS,
      rows: 'personnel',
    }),
    section('concept-down', 'Concepts by down and distance', 'shares', 'offense', {
      rows: 'set:downAndDistance',
      cols: 'concept',
    }),
    section('coverage-down', 'Coverage by down and distance', 'shares', 'defense', {
      rows: 'set:downAndDistance',
      cols: 'coverage',
    }),
    section('coverage-formation', 'Coverage by formation faced', 'shares', 'defense', {
      rows: 'formation',
      cols: 'coverage',
    }),
    section('front-down', 'Fronts by down and distance', 'shares', 'defense', {
      rows: 'set:downAndDistance',
      cols: 'front',
    }),
    section('pressure-down', 'Pressure by down and distance', 'shares', 'defense', {
      rows: 'set:downAndDistance',
      cols: 'pressure',
    }),
    section('explosives', 'Explosive plays given up', 'explosives', 'defense', { length: 15 }),
    section('concepts-against', 'Best and worst concepts against them', 'ranked', 'defense', { length: 8 }),
  ],
};

const GAME: ReportTemplate = {
  id: 'game',
  name: 'After the game',
  kind: 'game',
  smallSample: 20,
  sections: [
    section('box', 'Box score', 'box', 'both'),
    section('down', 'Efficiency by down and distance', 'efficiency', 'offense', {
      rows: 'set:downAndDistance',
    }),
    section('concept', 'Efficiency by concept', 'efficiency', 'offense'),
    section('formation', 'Efficiency by formation', 'efficiency', 'offense', { rows: 'formation' }),
    section('coverage', 'Passing by coverage faced', 'efficiency', 'offense', {
      rows: 'coverage',
      where: PASSES,
      metrics: [...PASSING],
    }),
    section('protection', 'Protection', 'efficiency', 'offense', {
      rows: 'protection',
      where: PASSES,
      metrics: ['dropbacks', 'sacks', 'pressureRate', 'timeToThrow'],
    }),
    section('pressure', 'Pressure faced', 'efficiency', 'offense', {
      rows: 'pressure',
      where: PASSES,
      metrics: ['dropbacks', 'sacks', 'pressureRate', 'successRate'],
    }),
    section('drives', 'Drives', 'drives', 'both', { length: 40 }),
    section('explosives', 'Explosive plays', 'explosives', 'offense', { length: 15 }),
    section('given-up', 'Explosive plays given up', 'explosives', 'defense', { length: 15 }),
    section('players', 'Players', 'players', 'both', { length: 40 }),
  ],
};

const CALLS: ReportTemplate = {
  id: 'calls',
  name: 'Call sheet draft',
  kind: 'calls',
  smallSample: 20,
  sections: [
    section('calls', 'What has worked', 'callSheet', 'offense', {
      rows: 'set:callSheet',
      cols: 'concept',
      length: 5,
    }),
  ],
};

/** The templates that every library has; a changed one is kept under the same id and can be taken back. */
export const BUILT_IN_TEMPLATES: readonly ReportTemplate[] = [OPPONENT, GAME, CALLS];
