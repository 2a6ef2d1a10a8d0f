import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ColumnStore } from '../../../db/columns/column-store.ts';
import { withDrives } from '../../../db/question/drives.ts';
import { findPlayIds } from '../../../db/question/sql.ts';
import { loadPlays } from '../../../db/repositories/play-records.ts';
import { COUNTERS, playFacts } from '../../../football/metrics/facts.ts';
import type { PlayRecord } from '../../../football/play.ts';
import type { Question, QuestionValue } from '../../../football/question/ast.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS } from '../../../football/vocabulary/terms.ts';
import { anyQuestion } from '../../football/question/any-question.ts';
import { FIELDS, inventedLibrary, NOTES, NUMBERS, termsOf } from './invented-library.ts';
import { answer, type PlainPlay } from './row-by-row.ts';

const db = inventedLibrary(400, 11);
const vocabulary = { fields: FIELDS, terms: BUILT_IN_TERMS };
const GAMES = db.prepare('SELECT id AS gameId, title, season, date FROM games').all() as {
  gameId: string;
  title: string;
  season: number;
  date: string | null;
}[];
const plays = withDrives(loadPlays(db).map((play) => play.record));

function storeOf(records: readonly PlayRecord[]): ColumnStore {
  const store = new ColumnStore({
    ...vocabulary,
    counters: { names: COUNTERS, facts: (play) => playFacts(play) },
  });
  for (const game of GAMES) store.setGame(game);
  for (const record of records) store.set(record);
  return store;
}

const isCounted = (play: PlayRecord) => play.playKind !== 'try' && play.playKind !== 'kickoff';

/** The plays of a play's drive, looked for among all plays. */
function driveOf(play: PlayRecord): PlayRecord[] {
  if (play.drive === null) return [play];
  return plays.filter((other) => other.gameId === play.gameId && other.drive === play.drive);
}
const drives = new Map(plays.map((play) => [play.playId, driveOf(play)]));

function derived(key: string, play: PlayRecord): string | number | boolean | null | undefined {
  const { yardsToGoal: spot, distance, quarter, clock, scoreFor, scoreAgainst } = play;
  const facts = playFacts(play);
  const flag = (known: string, counter: string) =>
    facts[COUNTERS.indexOf(known as never)] === 1 ? facts[COUNTERS.indexOf(counter as never)] === 1 : null;
  switch (key) {
    case 'zone':
      if (spot === null) return null;
      if (spot <= 40) return spot <= 5 ? 'goal line' : spot <= 20 ? 'red zone' : 'fringe';
      return spot <= 60 ? 'midfield' : spot < 90 ? 'own territory' : 'backed up';
    case 'toGo':
      return distance === null ? null : distance > 6 ? 'long' : distance > 3 ? 'medium' : 'short';
    case 'half':
      return quarter === null ? null : quarter > 4 ? quarter : quarter > 2 ? 2 : 1;
    case 'margin':
      return scoreFor === null || scoreAgainst === null ? null : scoreFor - scoreAgainst;
    case 'twoMinutes':
      if (quarter === null) return null;
      return quarter !== 2 && quarter !== 4 ? false : clock === null ? null : clock <= 120;
    case 'drivePlay':
      if (play.drive === null || !isCounted(play)) return null;
      return drives.get(play.playId)!.filter(isCounted).indexOf(play) + 1;
    case 'explosive':
      return flag('explosiveKnown', 'explosives');
    case 'success':
      return flag('successKnown', 'successes');
    default:
      return undefined;
  }
}

function plain(play: PlayRecord): PlainPlay {
  return (key) => {
    const stepped = /^(previous|next)\.(.*)$/.exec(key);
    if (stepped) {
      const drive = drives.get(play.playId)!;
      const other = drive[drive.indexOf(play) + (stepped[1] === 'next' ? 1 : -1)];
      return other ? plain(other)(stepped[2]!) : null;
    }
    const worked = derived(key, play);
    if (worked !== undefined) return worked;
    const field = FIELDS.find((f) => f.key === key)!;
    if (key === 'game') return GAMES.find((game) => game.gameId === play.gameId)!.title;
    if (key === 'season') return GAMES.find((game) => game.gameId === play.gameId)!.season;
    if (key === 'timeToThrow') {
      const { snap, release } = play.moments;
      if (snap === undefined || release === undefined || release <= snap) return null;
      return Number((release - snap).toFixed(6));
    }
    if (field.home === 'play') return play[key as keyof PlayRecord] as string | number | boolean | null;
    const tag = play.tags[key] ?? null;
    if (field.kind === 'flag') return tag === null ? null : tag === 1;
    return field.kind === 'player' && typeof tag === 'number' ? `#${tag}` : tag;
  };
}

function asked(text: string): Question {
  const parsed = parseQuestion(text, FIELDS);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`);
  return parsed.value;
}

function values(field: FieldDefinition): fc.Arbitrary<QuestionValue> {
  switch (field.kind) {
    case 'flag':
      return fc.boolean();
    case 'spot':
      return fc.constantFrom(...NUMBERS.filter((n) => n >= 0));
    case 'clock':
      return fc.integer({ min: 0, max: 10 }).map((n) => n * 90);
    case 'number':
      return fc.constantFrom(...NUMBERS, 2024, 2025, 2.166166, 9e15);
    case 'player':
      return fc.constantFrom('84', '#84', '#84 Ira Novak', 'ira novak', 'Novak', 'Tobias', '2', '8', '');
    case 'text':
      return fc.constantFrom(...NOTES, 'open', 'herons', 'Herons v Mariners', 'WIDE OPEN', 'nothing like it');
    case 'term': {
      const terms = termsOf(field.key);
      const aliases = BUILT_IN_TERMS.filter((t) => t.field === field.key).flatMap((t) => t.aliases ?? []);
      const some = [...terms, ...aliases, 'unheard of', 'o'];
      return fc.constantFrom(...some, ...some.map((term) => term.toUpperCase()));
    }
  }
}

describe('a question finds the same plays in SQLite, in the columns and read play by play', () => {
  const store = storeOf(plays);

  it('over random plays, whatever the question', () => {
    let found = 0;
    fc.assert(
      fc.property(anyQuestion(FIELDS, values), (question) => {
        const expected = plays
          .filter((play) => answer(question, plain(play), FIELDS) === true)
          .map((p) => p.playId);
        expect(store.playIds(question), printQuestion(question)).toEqual(expected);
        expect(store.count(question)).toBe(expected.length);
        expect(findPlayIds(db, question, vocabulary), printQuestion(question)).toEqual(expected);
        if (expected.length > 0 && expected.length < plays.length) found++;
      }),
      { seed: 20250909, numRuns: 400 },
    );
    expect(plays.length).toBeGreaterThan(250);
    expect(found).toBeGreaterThan(200);
  });

  it.each([
    "coverage = 'Cover 3'",
    "EXACTLY(coverage) = 'Cover 3'",
    "coverage <> 'Cover 3'",
    "NOT (coverage = 'c3')",
    "coverage IN ('Cover 3', 'quarters') AND NOT touchdown",
    "NOT (coverage = 'Cover 3' AND touchdown)",
    'touchdown IS NOT TRUE',
    'timeToThrow >= 2.5',
    'timeToThrow IS NULL',
    "target = '84'",
    "target LIKE 'ira%'",
    "callSheet LIKE '50\\%%' ESCAPE '\\'",
    "callSheet = 'ünruhe'",
    "game = 'HERONS V FOXES'",
    "zone = 'red zone' AND NOT EXACTLY(zone) = 'red zone'",
    "down = 3 AND toGo = 'short'",
    'margin < 3 OR twoMinutes',
    "previous.result = 'sack'",
    'previous.explosive',
    'drivePlay = 2',
    'next.drivePlay IS NULL AND drivePlay = 1',
    'formation = previous.formation',
    'gain > previous.gain',
    'airYards >= distance',
    'TRUE',
  ])('over random plays: %s', (text) => {
    const question = asked(text);
    const expected = plays
      .filter((play) => answer(question, plain(play), FIELDS) === true)
      .map((p) => p.playId);
    expect(expected.length).toBeGreaterThan(0);
    expect(store.playIds(question)).toEqual(expected);
    expect(findPlayIds(db, question, vocabulary)).toEqual(expected);
  });

  it('leaves out a play without the value, whether asked for or asked away', () => {
    const untagged = store.count(asked('coverage IS NULL'));
    const three = store.count(asked("coverage = 'Cover 3'"));
    expect(untagged).toBeGreaterThan(0);
    expect(store.count(asked("NOT (coverage = 'Cover 3')"))).toBe(plays.length - untagged - three);
    expect(store.count(asked("coverage <> 'Cover 3' OR coverage IS NULL"))).toBe(plays.length - three);
  });

  it('never lets a word into the SQL', () => {
    const evil = "x' OR 1=1; DROP TABLE plays; --";
    const question: Question = {
      kind: 'group',
      combinator: 'or',
      rules: (['coverage', 'hash', 'note', 'target', 'callSheet', 'game'] as const).flatMap((field) => [
        { kind: 'rule', field, operator: '=', value: evil },
        { kind: 'rule', field, operator: 'like', value: evil },
      ]),
    };
    expect(findPlayIds(db, question, vocabulary)).toEqual([]);
    expect(() =>
      findPlayIds(db, { kind: 'rule', field: 'down = 1 OR 1', operator: '=', value: 1 }, vocabulary),
    ).toThrow(/There is no field/);
    const operator = '= 1 OR 1 =' as '=';
    expect(() => findPlayIds(db, { kind: 'rule', field: 'down', operator, value: 1 }, vocabulary)).toThrow(
      /cannot be compared/,
    );
    expect(() => store.count({ kind: 'rule', field: '__proto__', operator: 'isNull' })).toThrow(
      /There is no field/,
    );
  });

  it('takes the longest question that is allowed', () => {
    const text = Array.from({ length: 400 }, (_, i) => `gain = ${i}`).join(' OR ');
    expect(findPlayIds(db, asked(text), vocabulary)).toEqual(store.playIds(asked(text)));
    const deep = `${'(down = 1 OR '.repeat(23)}gain = 3${')'.repeat(23)}`;
    expect(findPlayIds(db, asked(deep), vocabulary)).toEqual(store.playIds(asked(deep)));
  });
});

describe('the columns kept in step', () => {
  it('answer as if built afresh, after any changes of plays and games', () => {
    const order = (records: readonly PlayRecord[]) => storeOf(records).playIds(asked(''));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(plays.length - 1), fc.nat(plays.length - 1), fc.nat(3)), { maxLength: 120 }),
        fc.nat(plays.length - 1),
        (changes, initially) => {
          const now = new Map(plays.slice(0, initially).map((play) => [play.playId, play]));
          const store = storeOf([...now.values()]);
          for (const [index, from, kind] of changes) {
            const play = { ...plays[from]!, playId: plays[index]!.playId };
            if (kind === 0) {
              now.delete(play.playId);
              store.remove(play.playId);
            } else {
              now.set(play.playId, play);
              store.set(play);
            }
            if (kind === 1) store.playIds(asked('down = 1'));
          }
          const fresh = storeOf([...now.values()]);
          expect(store.size).toBe(now.size);
          expect(store.playIds(asked(''))).toEqual(order([...now.values()]));
          for (const text of ["coverage = 'Cover 3'", 'gain > 0 OR down IS NULL', "target = '84'"]) {
            expect(store.playIds(asked(text))).toEqual(fresh.playIds(asked(text)));
          }
        },
      ),
      { seed: 20250910, numRuns: 60 },
    );
  });

  it('follow a game that gets another title and date, and one that is taken out', () => {
    const store = storeOf(plays);
    store.setGame({ gameId: 'g3', title: 'Herons v Terns', season: 2025, date: '2025-12-01' });
    const last = store.playIds(asked("game = 'herons v terns'"));
    expect(last.length).toBeGreaterThan(0);
    expect(store.playIds(asked('')).slice(-last.length)).toEqual(last);
    expect(store.count(asked('season = 2024'))).toBe(0);
    store.removeGame('g3');
    expect(store.count(asked(''))).toBe(plays.length - last.length);
    expect(store.valueOf(last[0]!, 'game')).toBeNull();
  });
});
