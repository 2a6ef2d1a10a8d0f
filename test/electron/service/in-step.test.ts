import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openLibrary } from '../../../db/library.ts';
import { loadPlays } from '../../../db/repositories/play-records.ts';
import { table } from '../../../electron/service/actions/answers.ts';
import { changeTerm, setPlayer } from '../../../electron/service/actions/playbook.ts';
import { listPlays } from '../../../electron/service/actions/sheets/export.ts';
import { addPlay, redo, removePlay, tagMany, tagPlay, undo } from '../../../electron/service/actions/tags.ts';
import { Station } from '../../../electron/service/station.ts';
import type { FieldValue } from '../../../football/values.ts';
import { gameOf, type TestStation, testStation } from '../../support/station.ts';

let home: TestStation;

beforeEach(() => {
  home = testStation();
});
afterEach(() => home.remove());

const number = (value: number): FieldValue => ({ kind: 'number', number: value });
const term = (name: string): FieldValue => ({ kind: 'term', termId: '', name });
const change = fc.oneof(
  fc.record({
    field: fc.constantFrom('gain', 'yardsToGoal', 'distance'),
    value: fc.integer({ min: 1, max: 20 }).map(number),
  }),
  fc.record({ field: fc.constant('down'), value: fc.integer({ min: 1, max: 4 }).map(number) }),
  fc.record({
    field: fc.constant('concept'),
    value: fc.constantFrom('stick', 'mesh', 'brand new').map(term),
  }),
  fc.record({ field: fc.constant('playKind'), value: fc.constantFrom('run', 'pass', 'punt').map(term) }),
  fc.record({ field: fc.constant('possession'), value: fc.constantFrom('Herons', 'Mariners').map(term) }),
  fc.record({
    field: fc.constant('target'),
    value: fc
      .constantFrom(84, 17)
      .map((n): FieldValue => ({ kind: 'player', playerId: null, number: n, name: null, team: null })),
  }),
  fc.record({
    field: fc.constantFrom('gain', 'concept', 'target'),
    value: fc.constant<FieldValue>({ kind: 'clear' }),
  }),
);
const step = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      do: fc.constant('tag' as const),
      play: fc.nat(20),
      changes: fc.array(change, { minLength: 1, maxLength: 3 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('many' as const), change }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constantFrom('undo' as const, 'redo' as const) }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constantFrom('add' as const, 'remove' as const), play: fc.nat(20) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('rename' as const),
      name: fc.constantFrom('first name', 'second name'),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('roster' as const),
      name: fc.constantFrom('Ira Novak', 'Cole Tanaka'),
    }),
  },
);

describe('what the service keeps in memory', () => {
  it('is what stands in the library, after anything done, undone and done again', async () => {
    const { station } = home;
    const { gameId } = gameOf(station, 6);
    const { id: playerId } = setPlayer(station, null, { number: 84, name: 'Ira Novak', team: 'Herons' });
    const stick = station.vocabulary().findTerm('concept', 'stick')!.id;
    const at = (n: number) => {
      const plays = station.playsOf(gameId);
      return plays[n % plays.length]?.record.playId ?? '';
    };
    const asked = { where: 'gain > 3 OR concept IS NOT NULL', rows: 'concept', cols: 'drive' };
    for (const doing of fc.sample(step, { seed: 20251011, numRuns: 250 })) {
      if (doing.do === 'undo') undo(station);
      else if (doing.do === 'redo') redo(station);
      else if (doing.do === 'rename') changeTerm(station, stick, { name: doing.name });
      else if (doing.do === 'roster') {
        const there = station.vocabulary().players.some((p) => p.id === playerId);
        if (there) setPlayer(station, playerId, { name: doing.name });
      } else if (doing.do === 'many') {
        const ids = station.playsOf(gameId).map((p) => p.record.playId);
        tagMany(station, ids, doing.change.field, doing.change.value);
      } else if (doing.do === 'add') addPlay(station, gameId, at(doing.play) || null);
      else if (station.playsOf(gameId).length > 2) {
        if (doing.do === 'remove') removePlay(station, at(doing.play));
        if (doing.do === 'tag') tagPlay(station, { playId: at(doing.play), changes: doing.changes });
      }
      expect(station.playsOf(gameId)).toEqual(loadPlays(station.library.db, gameId));
      const fresh = new Station(openLibrary(home.path, { readOnly: true }), 'coach');
      expect(listPlays(station, '')).toEqual(listPlays(fresh, ''));
      expect(table(station, asked)).toEqual(table(fresh, asked));
      await fresh.close();
    }
    expect(station.playsOf(gameId).length).toBeGreaterThan(2);
  });
});
