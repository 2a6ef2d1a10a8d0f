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
import { record } from './record.ts';

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

/** Filter, ids, the counts of 40 fields and a concept x coverage table: the whole answer of one question. */
const ASKED = ['concept', 'coverage', 'rushers', 'playKind', 'hash', 'touchdown', 'down', 'distance', 'gain'];
const forty = [...ASKED, ...every.filter((key) => !ASKED.includes(key)).slice(0, 40 - ASKED.length)];
const QUESTIONS: readonly (readonly [text: string, name: string])[] = [
  ["down = 3 AND EXACTLY(coverage) = 'Cover 3' AND rushers >= 5 AND playKind = 'pass'", 'tight'],
  ["NOT (hash = 'L' AND distance BETWEEN 3 AND 5) OR touchdown", 'loose'],
];

function times(run: () => void): { median: number; p95: number } {
  for (let i = 0; i < 10; i++) run();
  const all = Array.from({ length: ROUNDS }, () => {
    const from = performance.now();
    run();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  return { median: all[ROUNDS / 2]!, p95: all[Math.floor(ROUNDS * 0.95)]! };
}

const isMillion = PLAYS > 500_000;
const { DuckDBInstance } = await import('@duckdb/node-api');
const duck = await (await DuckDBInstance.create(':memory:', { threads: '2' })).connect();
const quoted = (key: string) => `"${key}"`;
const typeOf = (key: string) => (store.fieldOf(key).column.kind === 'words' ? 'VARCHAR' : 'DOUBLE');
const layout = forty.map((key) => `${quoted(key)} ${typeOf(key)}`).join(', ');
await duck.run(`CREATE TABLE plays (id VARCHAR, ${layout})`);
const appender = await duck.createAppender('plays');
for (const { playId } of plays) {
  appender.appendVarchar(playId);
  for (const key of forty) {
    const value = store.valueOf(playId, key);
    if (value === null) appender.appendNull();
    else if (typeof value === 'string') appender.appendVarchar(value);
    else appender.appendDouble(value);
  }
  appender.endRow();
}
appender.closeSync();

for (const [text, name] of QUESTIONS) {
  const question = asked(text);
  const ours = times(() => {
    store.playIds(question);
    store.facets(question, forty);
    store.table(question, { ...table, counters: ['calls', 'yards'] });
  });
  const where = text.replace('EXACTLY(coverage)', 'coverage').replace('touchdown', 'touchdown = 1');
  const theirs: number[] = [];
  for (let i = 0; i < 5; i++) {
    const from = performance.now();
    await duck.runAndReadAll(`SELECT id FROM plays WHERE ${where}`);
    for (const key of forty) {
      await duck.runAndReadAll(`SELECT ${quoted(key)}, count(*) FROM plays WHERE ${where} GROUP BY 1`);
    }
    await duck.runAndReadAll(
      `SELECT concept, coverage, count(*), sum(gain) FROM plays WHERE ${where} GROUP BY 1, 2`,
    );
    theirs.push(performance.now() - from);
  }
  const duckMedian = theirs.sort((a, b) => a - b)[2]!;
  const what = `${PLAYS} plays, ${name} question: ids, 40 facets, table`;
  record(`${what}, median`, ours.median, isMillion ? 50 : 2, 'ms');
  record(`${what}, p95`, ours.p95, isMillion ? 50 : 5, 'ms');
  record(`${what}, share of the time DuckDB takes`, ours.median / duckMedian, 1 / 3, 'times');
  record(`${PLAYS} plays, ${name} question: count alone`, times(() => store.count(question)).median, 5, 'ms');
}
