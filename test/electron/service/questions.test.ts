import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createLibrary } from '../../../db/library.ts';
import { answer } from '../../../electron/service/actions/answers.ts';
import { facets, whyNothing } from '../../../electron/service/actions/facets.ts';
import { addGame } from '../../../electron/service/actions/games.ts';
import {
  questions,
  removeQuestion,
  renameQuestion,
  saveQuestion,
} from '../../../electron/service/actions/questions.ts';
import { changeSituations } from '../../../electron/service/actions/situations.ts';
import { addPlay, tagPlay } from '../../../electron/service/actions/tags.ts';
import { Station } from '../../../electron/service/station.ts';
import { ProblemError } from '../../../football/result.ts';

const folder = mkdtempSync(join(tmpdir(), 'tapebook-questions-'));
const library = createLibrary(join(folder, 'q.tapebook'), { team: 'Herons', level: 'ncaa' });
const station = new Station(library, 'coach');
const { gameId } = addGame(station, { title: 'Herons v Mariners', opponent: 'Mariners' });

type Play = Record<string, string | number>;
const PLAYS: readonly Play[] = [
  {
    down: 1,
    distance: 10,
    yardsToGoal: 65,
    playKind: 'pass',
    result: 'sack',
    gain: -7,
    coverage: 'Cover 3 sky',
  },
  {
    down: 2,
    distance: 17,
    yardsToGoal: 72,
    playKind: 'pass',
    result: 'complete',
    gain: 20,
    coverage: 'Cover 1',
  },
  {
    down: 1,
    distance: 10,
    yardsToGoal: 52,
    playKind: 'run',
    result: 'rush',
    gain: 3,
    coverage: 'Cover 3 buzz',
  },
  {
    down: 2,
    distance: 7,
    yardsToGoal: 18,
    playKind: 'pass',
    result: 'incomplete',
    gain: 0,
    coverage: 'Cover 3',
  },
];
for (const [i, play] of PLAYS.entries()) {
  const { playId } = addPlay(station, gameId, null);
  const text = (name: string) => ({ kind: 'term' as const, termId: '', name });
  tagPlay(station, {
    playId,
    changes: [
      { field: 'quarter', value: { kind: 'number', number: i < 2 ? 2 : 3 } },
      { field: 'drive', value: { kind: 'number', number: 1 } },
      { field: 'possession', value: text('Herons') },
      ...Object.entries(play).map(([field, v]) => ({
        field,
        value: typeof v === 'number' ? { kind: 'number' as const, number: v } : text(v),
      })),
    ],
  });
}
afterAll(() => station.close());

const count = (where: string) => answer(station, where).count;
function problemOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof ProblemError) return `${error.problem.code}: ${error.problem.message}`;
    throw error;
  }
  return 'none';
}

describe('questions through the service', () => {
  it.each([
    ["previous.result = 'sack'", 1],
    ['previous.explosive', 1],
    ['drivePlay = 2', 1],
    ["coverage = 'Cover 3'", 3],
    ["EXACTLY(coverage) = 'Cover 3'", 1],
    ["zone = 'red zone'", 1],
    ["zone = 'own territory' AND toGo = 'long'", 2],
    ['quarter >= 3', 2],
    ['half = 1', 2],
    ['playKind = previous.playKind', 1],
    ['gain >= distance', 1],
  ])('%s finds %i', (where, plays) => {
    expect(count(where)).toBe(plays);
  });

  it('counts a staff’s own zones as soon as they change', () => {
    expect(count("zone = 'goal line'")).toBe(0);
    changeSituations(station, { redZoneFrom: 30, goalLineFrom: 18 });
    expect(count("zone = 'goal line'")).toBe(1);
    expect(problemOf(() => changeSituations(station, { redZoneFrom: 50 }))).toMatch(/^setting-unfit/);
    changeSituations(station, { redZoneFrom: 20, goalLineFrom: 5 });
  });

  it('keeps questions by name, uses them in others, and follows a new name', () => {
    const { questionId } = saveQuestion(station, 'Three deep', "coverage = 'Cover 3'");
    saveQuestion(station, 'Passed against it', "question = 'three deep' AND playKind = 'pass'");
    expect(count("question = 'Passed against it'")).toBe(2);
    expect(count("question <> 'Three deep'")).toBe(1);
    renameQuestion(station, questionId, "Coach's three");
    expect(questions(station).map((q) => q.where)).toContain(
      "question = 'Coach''s three' AND playKind = 'pass'",
    );
    expect(count("question = 'Passed against it'")).toBe(2);
    expect(problemOf(() => saveQuestion(station, "Coach's three", "question = 'Passed against it'"))).toBe(
      "question-circle: Saved questions go round in a circle: “Coach's three” asks for “Passed against it” asks for “Coach's three”.",
    );
    expect(problemOf(() => removeQuestion(station, questionId))).toMatch(/^question-used.*Passed against it/);
    expect(problemOf(() => answer(station, "question = 'Three dep'"))).toMatch(/^question-saved-unknown/);
  });

  it('counts every value under a question, families as trees, and its own field without its condition', () => {
    const found = facets(station, "coverage = 'Cover 1'");
    expect(found.count).toBe(1);
    const coverage = found.facets.find((f) => f.field === 'coverage')!;
    expect(coverage.asked).toBe(true);
    expect(coverage.values.map((v) => [v.label, v.plays, v.depth])).toEqual([
      ['Cover 3', 3, 0],
      ['Cover 3 buzz', 1, 1],
      ['Cover 3 sky', 1, 1],
      ['Cover 1', 1, 0],
    ]);
    for (const facet of facets(station, 'down = 2').facets) {
      for (const value of facet.values) {
        const narrowed = facet.asked ? value.where : `down = 2 AND ${value.where}`;
        if (!facet.asked) expect(count(narrowed), narrowed).toBe(value.plays);
      }
    }
  });

  it('says which condition, or which two together, empty an answer, and what would be found without', () => {
    const why = whyNothing(station, "down = 4 AND (coverage = 'Cover 1' OR gain > 50)");
    expect(why.reasons).toEqual([{ conditions: ['down = 4'] }]);
    expect(why.wider).toEqual([
      { without: ['down = 4'], where: "coverage = 'Cover 1' OR gain > 50", plays: 1 },
    ]);
    const pair = whyNothing(station, "playKind = 'run' AND down = 2 AND half = 2");
    expect(pair.reasons).toEqual([{ conditions: ["playKind = 'run'", 'down = 2'] }]);
    for (const wider of pair.wider) expect(count(wider.where)).toBe(wider.plays);
    expect(pair.wider.length).toBe(2);
    const nested = whyNothing(station, 'NOT (down = 1 OR down = 2)');
    expect(nested.wider.map((w) => w.without)).toContainEqual(['down = 1']);
  });
});
