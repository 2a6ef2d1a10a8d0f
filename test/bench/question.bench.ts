/**
 * Medians of answering questions over 20,000 invented plays: `tsx test/bench/question.bench.ts [plays] [--json]`.
 * Milliseconds; with --json one object on stdout, for whoever keeps a baseline.
 */

import { ColumnStore } from '../../db/columns/column-store.ts';
import { metricOf } from '../../football/metrics/definitions.ts';
import { COUNTERS, playFacts } from '../../football/metrics/facts.ts';
import { blankPlay, type PlayRecord } from '../../football/play.ts';
import { parseQuestion } from '../../football/question/parse.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS } from '../../football/vocabulary/terms.ts';

const PLAYS = Number(process.argv[2]) || 20_000;
const ROUNDS = 60;

let state = 7;
function random(): number {
  state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
  return state / 4_294_967_296;
}

const termNames = new Map<string, string[]>();
for (const { field, name } of BUILT_IN_TERMS) termNames.set(field, [...(termNames.get(field) ?? []), name]);
const PLAYERS = Array.from({ length: 40 }, (_, i) => `#${i + 1} Player ${i + 1}`);
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

function inventedPlay(i: number): PlayRecord {
  const record: Record<string, unknown> = {
    ...blankPlay(`play-${String(i).padStart(8, '0')}`, `game-${Math.floor(i / 180)}`),
  };
  const tags: Record<string, string | number> = {};
  for (const field of BUILT_IN_FIELDS) {
    if (random() < 0.15) continue;
    const words = field.kind === 'player' ? PLAYERS : (termNames.get(field.key) ?? ['Herons', 'Mariners']);
    const value =
      field.kind === 'flag'
        ? random() < 0.1
        : field.kind === 'number' || field.kind === 'spot' || field.kind === 'clock'
          ? Math.floor(random() * (field.kind === 'clock' ? 900 : 20))
          : pick(words);
    if (field.home === 'play') record[field.key] = value;
    if (field.home === 'tag') tags[field.key] = value as string | number;
  }
  record.playNumber = (i % 180) + 1;
  record.playKind = random() < 0.6 ? 'pass' : 'run';
  record.moments = { snap: 1, release: 1 + Math.round(random() * 40) / 10 };
  return { ...record, tags } as unknown as PlayRecord;
}

function asked(text: string) {
  const parsed = parseQuestion(text, BUILT_IN_FIELDS);
  if (!parsed.ok) throw new Error(parsed.problem.message);
  return parsed.value;
}

function median(run: () => void): number {
  for (let i = 0; i < 10; i++) run();
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[ROUNDS / 2]!;
}

const plays = Array.from({ length: PLAYS }, (_, i) => inventedPlay(i));
const store = new ColumnStore({
  fields: BUILT_IN_FIELDS,
  terms: BUILT_IN_TERMS,
  counters: { names: COUNTERS, facts: (play) => playFacts(play) },
});
const start = performance.now();
for (const play of plays) store.set(play);
store.playIds(asked(''));
const built = performance.now() - start;

const tight = asked("down = 3 AND coverage = 'Cover 3' AND rushers >= 5 AND playKind = 'pass'");
const loose = asked("NOT (hash = 'L' AND distance BETWEEN 3 AND 5) OR touchdown");
const table = { rows: [{ field: 'concept' }], cols: [{ field: 'coverage' }] };
const main = ['attempts', 'completionPct', 'passYards', 'successRate', 'explosiveRate', 'touchdowns'];
const counters = [...new Set(main.flatMap((key) => metricOf(key)!.counters))];
const every = BUILT_IN_FIELDS.map((field) => field.key);
const changed = plays.map((play) => ({ ...play, gain: 3 }));
let at = 0;

const medians: Record<string, number> = {
  'build, once': built,
  'count, tight': median(() => store.count(tight)),
  'count, loose': median(() => store.count(loose)),
  'filter + ids, tight': median(() => store.playIds(tight)),
  'filter + ids, loose': median(() => store.playIds(loose)),
  'table concept x coverage, six metrics, tight': median(() => store.table(tight, { ...table, counters })),
  'table concept x coverage, six metrics, loose': median(() => store.table(loose, { ...table, counters })),
  'table concept x coverage, all counters, loose': median(() => store.table(loose, table)),
  'facets of every field, tight': median(() => store.facets(tight, every)),
  'facets of every field, loose': median(() => store.facets(loose, every)),
  'one play changed': median(() => store.set(changed[at++ % PLAYS]!)),
};

if (process.argv.includes('--json')) console.log(JSON.stringify({ plays: PLAYS, medians }));
else {
  console.log(
    `${PLAYS} plays, ${every.length} fields, ${COUNTERS.length} counters; medians of ${ROUNDS}, ms`,
  );
  for (const [name, ms] of Object.entries(medians)) console.log(`  ${name.padEnd(48)} ${ms.toFixed(3)}`);
}
