import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import { createLibrary } from '../../../db/library.ts';
import { addToCutup, changeItem, makeCutup } from '../../../electron/service/actions/cutups.ts';
import { addGame } from '../../../electron/service/actions/games.ts';
import { logPlay } from '../../../electron/service/actions/log-line.ts';
import { playsOfGame } from '../../../electron/service/actions/play-views.ts';
import { addTerm, changeTerm, setPlayer } from '../../../electron/service/actions/playbook.ts';
import { listPlays } from '../../../electron/service/actions/sheets/export.ts';
import { addPlay, redo, removePlay, tagMany, tagPlay, undo } from '../../../electron/service/actions/tags.ts';
import { openStation, Station } from '../../../electron/service/station.ts';
import { ProblemError } from '../../../football/result.ts';

let folder: string;
let station: Station;
let gameId: string;
let plays: string[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-tags-'));
  station = new Station(
    createLibrary(join(folder, 'h.tapebook'), { team: 'Herons', level: 'ncaa' }),
    'coach',
  );
  gameId = addGame(station, { title: 'Herons v Mariners', season: 2025, opponent: 'Mariners' }).gameId;
  setPlayer(station, null, { number: 84, name: 'Ira Novak', position: 'WR', team: 'Herons' });
  plays = [1, 2, 3].map(() => addPlay(station, gameId, null).playId);
});

afterEach(async () => {
  expect(checkLibrary(station.library)).toMatchObject({ ok: true });
  await station.close();
  rmSync(folder, { recursive: true, force: true });
});

const play = (n: number) => playsOfGame(station, gameId)[n - 1]!;
const log = (n: number, line: string, more: { newTerms?: { field: string; name: string }[] } = {}) =>
  logPlay(station, { playId: plays[n - 1]!, line, ...more });
const problem = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof ProblemError) return error.problem.code;
    throw error;
  }
  return 'none';
};

describe('logging a play', () => {
  it('stores what the line says, and predicts the next situation from it', () => {
    log(1, 'us q1 10:00 1&10 -25 l 11 trips c:stick c3 sky pass c g7 a5 @84');
    expect(play(1).record).toMatchObject({
      down: 1,
      distance: 10,
      yardsToGoal: 75,
      hash: 'L',
      gain: 7,
      clock: 600,
    });
    expect(play(1).record.tags).toMatchObject({
      concept: 'stick',
      coverage: 'Cover 3 sky',
      target: '#84 Ira Novak',
    });
    expect(play(2)).toMatchObject({
      logged: false,
      prediction: { down: 2, distance: 3, yardsToGoal: 68, possession: 'Herons' },
    });
    expect(play(2).record.down).toBeNull();
  });

  it('keeps a prediction that nobody contradicted, marked as one, until a person enters it', () => {
    log(1, 'us q1 1&10 -25 run ru g4');
    log(2, '-30 run ru g2');
    expect(play(2).record).toMatchObject({ down: 2, distance: 6, yardsToGoal: 70 });
    expect(play(2).predicted).toEqual(expect.arrayContaining(['distance', 'down', 'possession', 'quarter']));
    expect(play(2).predicted).not.toContain('yardsToGoal');
    tagPlay(station, {
      playId: plays[1]!,
      changes: [{ field: 'down', value: { kind: 'number', number: 2 } }],
    });
    expect(play(2).predicted).not.toContain('down');
  });

  it('deduces a first down, the yards after the catch and the turnover, and follows a corrected gain', () => {
    log(1, 'us q1 2&6 -25 pass c g11 a5');
    // common practice, no source: caught five yards past the line, an 11-yard gain: 6 after the catch, and a first down on second and six
    expect(play(1).record).toMatchObject({ yardsAfterCatch: 6, firstDown: true });
    expect(play(1).predicted).toEqual(expect.arrayContaining(['firstDown', 'yardsAfterCatch']));
    tagPlay(station, {
      playId: plays[0]!,
      changes: [{ field: 'gain', value: { kind: 'number', number: 5 } }],
    });
    expect(play(1).record).toMatchObject({ yardsAfterCatch: 0, firstDown: false });
    log(2, 'us 1&10 -30 pass int g0');
    expect(play(2).record.turnover).toBe(true);
  });

  it('stores nothing of a line with a word that it does not understand', () => {
    const before = JSON.stringify(play(1));
    expect(problem(() => log(1, 'us 1&10 -25 c:stick wobble'))).toBe('log-line-unclear');
    expect(problem(() => log(1, 'us 1&10 -25 stick'))).toBe('log-line-unclear');
    expect(JSON.stringify(play(1))).toBe(before);
  });

  it('takes a new term that the person adds, and a number nobody on the roster wears', () => {
    log(1, 'us 1&10 -25 c:yankee pass c g30 @17', { newTerms: [{ field: 'concept', name: 'yankee' }] });
    expect(play(1).record.tags).toMatchObject({ concept: 'yankee', target: '#17' });
    expect(station.vocabulary().findTerm('concept', 'Yankee')?.name).toBe('yankee');
  });

  it('keeps with each tag the film time at which it was given', () => {
    const { db } = station.library;
    station.library.journal.commit({ label: 'film' }, [
      { entity: 'film', id: 'f1', field: 'removed', value: 0 },
      { entity: 'film', id: 'f1', field: 'name', value: 'one.mp4' },
    ]);
    tagPlay(station, {
      playId: plays[0]!,
      changes: [{ field: 'concept', value: { kind: 'term', termId: '', name: 'mesh' } }],
      film: { filmId: 'f1', frame: 83 },
    });
    expect(db.prepare('SELECT film_id, film_frame, person FROM tags').get()).toEqual({
      film_id: 'f1',
      film_frame: 83,
      person: 'coach',
    });
    expect(db.prepare("SELECT film_frame FROM edits WHERE entity = 'tag'").get()).toEqual({ film_frame: 83 });
  });

  it('undoes and redoes a whole line as one gesture, after a restart too', async () => {
    log(1, 'us q1 1&10 -25 c:mesh pass c g9');
    const after = JSON.stringify(play(1).record);
    await station.close();
    station = openStation(join(folder, 'h.tapebook'), { person: 'coach' });
    expect(undo(station).label).toBe('log play 1');
    expect(play(1).record).toMatchObject({ down: null, gain: null, tags: {} });
    redo(station);
    expect(JSON.stringify(play(1).record)).toBe(after);
  });
});

describe('questions and numbers follow a tag at once', () => {
  it('finds a play by what was just logged, and no more after it is undone', () => {
    expect(listPlays(station, "coverage = 'Cover 3'")).toEqual([]);
    log(2, 'us 1&10 -25 c3 sky run ru g3');
    expect(listPlays(station, "coverage = 'Cover 3'", ['playNumber', 'gain'])).toMatchObject([
      { playNumber: 2, gain: 3 },
    ]);
    expect(listPlays(station, "EXACTLY(coverage) = 'Cover 3'")).toEqual([]);
    undo(station);
    expect(listPlays(station, "coverage = 'Cover 3'")).toEqual([]);
  });

  it('sets one value on many plays, and takes a value away', () => {
    tagMany(station, plays, 'front', { kind: 'term', termId: '', name: 'over' });
    expect(listPlays(station, "front = 'over'")).toHaveLength(3);
    tagPlay(station, { playId: plays[1]!, changes: [{ field: 'front', value: { kind: 'clear' } }] });
    expect(listPlays(station, 'front IS NULL', ['playNumber'])).toMatchObject([{ playNumber: 2 }]);
  });

  it('renames a term everywhere, and does not remove one that is in use', () => {
    log(1, 'us 1&10 -25 c:mesh pass c g9');
    const mesh = station.vocabulary().findTerm('concept', 'mesh')!;
    expect(problem(() => changeTerm(station, mesh.id, { removed: true }))).toBe('term-in-use');
    changeTerm(station, mesh.id, { name: 'mesh wheel' });
    expect(listPlays(station, "concept = 'mesh wheel'")).toHaveLength(1);
    expect(problem(() => addTerm(station, 'concept', 'Mesh Wheel'))).toBe('term-exists');
    expect(problem(() => addTerm(station, 'playKind', 'rugby'))).toBe('field-closed');
  });
});

describe('plays and cut-ups', () => {
  it('puts a play between two, and numbers on', () => {
    log(2, 'us 1&10 -25 run ru g3');
    const { playId } = addPlay(station, gameId, plays[0]!);
    expect(playsOfGame(station, gameId).map((p) => [p.record.playNumber, p.playId])).toEqual([
      [1, plays[0]],
      [2, playId],
      [3, plays[1]],
      [4, plays[2]],
    ]);
    removePlay(station, playId);
    expect(playsOfGame(station, gameId).map((p) => p.playId)).toEqual(plays);
  });

  it('orders, drops, trims and notes the clips of a cut-up', () => {
    for (const n of [1, 2, 3]) log(n, 'us 1&10 -25 c:mesh pass c g9');
    let cutup = makeCutup(station, { name: 'Mesh', where: "concept = 'mesh'" });
    expect(cutup.list.map((i) => i.playId)).toEqual(plays);
    expect(cutup.line.metrics).toMatchObject({ calls: 3, completions: 3, yards: 27 });
    const [first, second, third] = cutup.list.map((i) => i.itemId) as [string, string, string];
    cutup = changeItem(station, cutup.cutupId, third, { after: null });
    expect(cutup.list.map((i) => i.itemId)).toEqual([third, first, second]);
    cutup = changeItem(station, cutup.cutupId, first, { removed: true });
    cutup = changeItem(station, cutup.cutupId, second, { trims: { sideline: [10, 40] }, note: 'late' });
    expect(cutup.list[1]).toMatchObject({ itemId: second, trims: { sideline: [10, 40] }, note: 'late' });
    expect(problem(() => changeItem(station, cutup.cutupId, second, { trims: { sideline: [40, 10] } }))).toBe(
      'trim-range',
    );
    cutup = addToCutup(station, cutup.cutupId, [plays[0]!], third);
    expect(cutup.list.map((i) => i.playId)).toEqual([plays[2], plays[0], plays[1]]);
    expect(cutup.line.metrics).toMatchObject({ calls: 3 });
    expect(problem(() => makeCutup(station, { name: 'mesh ', where: '' }))).toBe('cutup-exists');
    expect(problem(() => makeCutup(station, { name: 'None', where: 'gain > 90' }))).toBe('cutup-nothing');
  });
});
