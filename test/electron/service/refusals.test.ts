import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import { addToCutup, changeItem, cutupDetail, makeCutup } from '../../../electron/service/actions/cutups.ts';
import { logPlay } from '../../../electron/service/actions/log-line.ts';
import { playsOfGame } from '../../../electron/service/actions/play-views.ts';
import { addTerm, changeTerm, setPlayer, setReadRule } from '../../../electron/service/actions/playbook.ts';
import { removeQuestion, saveQuestion } from '../../../electron/service/actions/questions.ts';
import { listPlays } from '../../../electron/service/actions/sheets/export.ts';
import {
  addPlay,
  setClip,
  stampMoment,
  tagMany,
  tagPlay,
  undo,
} from '../../../electron/service/actions/tags.ts';
import type { Station } from '../../../electron/service/station.ts';
import { gameOf, problemOf, type TestStation, testStation } from '../../support/station.ts';

let home: TestStation;
let station: Station;
let gameId: string;
let plays: string[];

beforeEach(() => {
  home = testStation();
  station = home.station;
  ({ gameId, playIds: plays } = gameOf(station, 3));
});

afterEach(async () => {
  expect(checkLibrary(home.station.library)).toMatchObject({ ok: true });
  await home.remove();
});

const edits = () => checkLibrary(station.library).edits;
const number = (n: number) => ({ kind: 'number' as const, number: n });
const term = (name: string) => ({ kind: 'term' as const, termId: '', name });

describe('what is not in the library', () => {
  const nobody = '00000000-0000-7000-8000-000000000000';
  it.each<[string, string, () => unknown]>([
    [
      'a play',
      'play-unknown',
      () => tagPlay(station, { playId: nobody, changes: [{ field: 'gain', value: number(3) }] }),
    ],
    [
      'a film behind a tag',
      'film-unknown',
      () =>
        tagPlay(station, {
          playId: plays[0]!,
          changes: [{ field: 'gain', value: number(3) }],
          film: { filmId: nobody, frame: 3 },
        }),
    ],
    [
      'a film of a moment',
      'film-unknown',
      () =>
        stampMoment(station, {
          playId: plays[0]!,
          kind: 'snap',
          filmId: nobody,
          frame: 3,
        }),
    ],
    [
      'a film of a clip',
      'film-unknown',
      () =>
        setClip(station, { playId: plays[0]!, filmId: nobody, angle: 'sideline', inFrame: 0, outFrame: 3 }),
    ],
    [
      'a player of a tag',
      'player-unknown',
      () =>
        tagPlay(station, {
          playId: plays[0]!,
          changes: [
            {
              field: 'target',
              value: { kind: 'player', playerId: nobody, number: 84, name: null, team: null },
            },
          ],
        }),
    ],
    [
      'a field',
      'field-unknown',
      () => tagPlay(station, { playId: plays[0]!, changes: [{ field: 'gian', value: number(3) }] }),
    ],
    ['a field of many plays', 'field-unknown', () => tagMany(station, plays, 'gian', number(3))],
    ['the game of a play', 'game-unknown', () => addPlay(station, nobody, null)],
    ['the play that a play comes after', 'play-unknown', () => addPlay(station, gameId, nobody)],
    ['a player to change', 'player-unknown', () => setPlayer(station, nobody, { name: 'Ira Novak' })],
    ['a read rule to change', 'rule-unknown', () => setReadRule(station, nobody, { note: 'late' })],
    ['a question to remove', 'question-unknown', () => removeQuestion(station, nobody)],
    [
      'a play for a cut-up',
      'play-unknown',
      () => makeCutup(station, { name: 'Mesh', playIds: [plays[0]!, nobody] }),
    ],
    ['a term to change', 'term-unknown', () => changeTerm(station, 'concept:nothing', { name: 'x' })],
  ])('%s is refused, and nothing is stored', async (_, code, work) => {
    const before = edits();
    expect((await problemOf(work)).code).toBe(code);
    expect(edits()).toBe(before);
  });

  it('is no place in a cut-up either', async () => {
    const { cutupId, list } = makeCutup(station, { name: 'All', playIds: plays });
    const before = edits();
    const unknown = [
      () => addToCutup(station, cutupId, [nobody], null),
      () => addToCutup(station, cutupId, plays, nobody),
      () => changeItem(station, cutupId, list[0]!.itemId, { after: nobody }),
    ];
    for (const work of unknown) expect((await problemOf(work)).code).toMatch(/^(play|item)-unknown$/);
    expect(edits()).toBe(before);
  });
});

describe('what does not fit', () => {
  it.each<[string, string, unknown]>([
    ['down', 'value-not-fit', number(5)],
    ['down', 'value-not-fit', number(1.5)],
    ['down', 'value-not-fit', term('first')],
    ['gain', 'value-not-fit', number(Number.POSITIVE_INFINITY)],
    ['yardsToGoal', 'value-not-fit', number(100)],
    ['touchdown', 'value-not-fit', number(1)],
    ['playKind', 'term-unknown', term('rugby')],
    ['hash', 'value-not-fit', number(1)],
    ['game', 'field-derived', { kind: 'text', text: 'Another game' }],
    ['timeToThrow', 'field-derived', number(2.5)],
    ['note', 'value-not-fit', number(3)],
  ])('%s: %s', async (field, code, value) => {
    const before = edits();
    const changes = [
      { field: 'concept', value: term('mesh') },
      { field, value: value as never },
    ];
    expect((await problemOf(() => tagPlay(station, { playId: plays[0]!, changes }))).code).toBe(code);
    expect(edits()).toBe(before);
  });

  it('a name of nothing but blanks', async () => {
    expect((await problemOf(() => saveQuestion(station, '  ', 'down = 3'))).code).toBe('question-unnamed');
    expect((await problemOf(() => addTerm(station, 'concept', ' '))).code).toBe('term-empty');
    const mesh = station.vocabulary().findTerm('concept', 'mesh')!;
    expect((await problemOf(() => changeTerm(station, mesh.id, { name: ' ' }))).code).toBe('term-empty');
    expect((await problemOf(() => makeCutup(station, { name: ' ', where: '' }))).code).toBe('cutup-unnamed');
  });
});

describe('nothing is lost by the way', () => {
  it('a line that is not understood adds no term either', async () => {
    const before = edits();
    const line = { playId: plays[0]!, line: 'us 1&10 -25 c:yankee wobble pass c g30' };
    const newTerms = [{ field: 'concept', name: 'yankee' }];
    expect((await problemOf(() => logPlay(station, { ...line, newTerms }))).code).toBe('log-line-unclear');
    expect(station.vocabulary().findTerm('concept', 'yankee')).toBeNull();
    expect(edits()).toBe(before);
  });

  it('a line with a new term is one gesture', () => {
    logPlay(station, {
      playId: plays[0]!,
      line: 'us 1&10 -25 c:yankee pass c g30',
      newTerms: [{ field: 'concept', name: 'yankee' }],
    });
    undo(station);
    expect(station.vocabulary().findTerm('concept', 'yankee')).toBeNull();
    expect(playsOfGame(station, gameId)[0]?.record).toMatchObject({ gain: null, tags: {} });
  });

  it('a term that was renamed keeps its plays when its old name is taken again', () => {
    tagPlay(station, { playId: plays[0]!, changes: [{ field: 'concept', value: term('mesh') }] });
    changeTerm(station, station.vocabulary().findTerm('concept', 'mesh')!.id, { name: 'rub' });
    tagPlay(station, { playId: plays[1]!, changes: [{ field: 'concept', value: term('mesh') }] });
    addTerm(station, 'coverage', 'lock four');
    changeTerm(station, station.vocabulary().findTerm('coverage', 'lock four')!.id, { name: 'two read' });
    addTerm(station, 'coverage', 'lock four');
    const concepts = listPlays(station, 'playNumber < 3', ['concept']).map((row) => row.concept);
    expect(concepts).toEqual(['rub', 'mesh']);
    const coverages = station.vocabulary().terms.map((t) => t.name);
    expect(coverages).toEqual(expect.arrayContaining(['lock four', 'two read']));
  });

  it('a penalty the playbook does not know becomes a term of it', () => {
    tagPlay(station, {
      playId: plays[0]!,
      changes: [{ field: 'penalty', value: term('hurdling the snapper') }],
    });
    expect(station.vocabulary().findTerm('penalty', 'Hurdling the snapper')?.name).toBe(
      'hurdling the snapper',
    );
    undo(station);
    expect(station.vocabulary().findTerm('penalty', 'hurdling the snapper')).toBeNull();
  });

  it('undo ends where the library begins: its playbook and its team stay', () => {
    for (let n = 0; n < 20; n += 1) undo(station);
    expect(undo(station).label).toBeNull();
    expect(station.team).toBe('Herons');
    expect(station.vocabulary().findTerm('coverage', 'Cover 3')).not.toBeNull();
  });

  it('undoing a clip tells the play it was a clip of', () => {
    station.library.journal.commit({ label: 'film' }, [
      { entity: 'film', id: 'f1', field: 'removed', value: 0 },
      { entity: 'film', id: 'f1', field: 'media', value: [100, 30, 3.3, 640, 360, 'h264'] },
    ]);
    setClip(station, { playId: plays[0]!, filmId: 'f1', angle: 'sideline', inFrame: 0, outFrame: 30 });
    expect(undo(station).plays.map((p) => p.playId)).toContain(plays[0]);
  });

  it('setting one value on many plays deduces what follows, as on one play', () => {
    for (const playId of plays) {
      tagPlay(station, {
        playId,
        changes: [
          { field: 'playKind', value: term('run') },
          { field: 'down', value: number(1) },
          { field: 'distance', value: number(10) },
        ],
      });
    }
    tagMany(station, plays, 'gain', number(12));
    const stored = playsOfGame(station, gameId);
    expect(stored.map((p) => p.record.firstDown)).toEqual([true, true, true]);
    expect(stored.every((p) => p.predicted.includes('firstDown'))).toBe(true);
  });

  it('a play that is shown twice in a cut-up counts once in its line of numbers', () => {
    const value = number(7);
    tagPlay(station, {
      playId: plays[0]!,
      changes: [
        { field: 'playKind', value: term('run') },
        { field: 'gain', value },
      ],
    });
    const { cutupId } = makeCutup(station, { name: 'Twice', playIds: [plays[0]!, plays[0]!] });
    const { list, line } = cutupDetail(station, cutupId);
    expect(list).toHaveLength(2);
    expect(line).toMatchObject({ metrics: { calls: 1, yards: 7 }, playIds: [plays[0]] });
  });
});
