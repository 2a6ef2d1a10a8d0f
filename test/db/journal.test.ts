import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../db/check.ts';
import type { Change } from '../../db/journal/edit.ts';
import { JOURNALED_TABLES, tagId } from '../../db/journal/entities.ts';
import { createLibrary, type Library, openLibrary } from '../../db/library.ts';
import { loadPlays } from '../../db/repositories/play-records.ts';
import { ProblemError } from '../../football/result.ts';
import { termId } from '../../football/vocabulary/terms.ts';

let folder: string;
let library: Library;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-journal-'));
  library = createLibrary(join(folder, 'herons.tapebook'), { team: 'Harlow Ridge Herons', level: 'ncaa' });
});
afterEach(() => {
  library.close();
  rmSync(folder, { recursive: true, force: true });
});

const GAME: Change[] = [
  { entity: 'game', id: 'g1', field: 'removed', value: 0 },
  { entity: 'game', id: 'g1', field: 'title', value: 'Herons v Mariners' },
];

function newPlay(id: string, playNumber: number): Change[] {
  return [
    { entity: 'play', id, field: 'removed', value: 0 },
    { entity: 'play', id, field: 'gameId', value: 'g1' },
    { entity: 'play', id, field: 'playNumber', value: playNumber },
  ];
}

function tag(playId: string, field: string, term: string): Change {
  const value = [termId(field, term), null, null, null, null, null, 'coach', '2025-09-06T18:00:00Z'];
  return { entity: 'tag', id: tagId(playId, field), field: 'value', value };
}

function snapshot(lib: Library): string {
  return JSON.stringify(
    JOURNALED_TABLES.map((t) => lib.db.prepare(`SELECT * FROM "${t}" ORDER BY id`).all()),
  );
}

describe('the journal', () => {
  it('keeps the tag and its edit in one commit and tells listeners afterwards', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    const heard: string[] = [];
    library.journal.onCommit((c) => {
      expect(loadPlays(library.db)[0]?.record.tags.coverage).toBe('Cover 3 sky');
      heard.push(c.label);
    });
    library.journal.commit({ label: 'tag play 1' }, [tag('p1', 'coverage', 'Cover 3 sky')]);
    expect(heard).toEqual(['tag play 1']);
  });

  it('leaves no trace of a gesture that changes nothing', () => {
    library.journal.commit({ label: 'new game' }, [
      ...GAME,
      ...newPlay('p1', 1),
      tag('p1', 'concept', 'stick'),
    ]);
    const before = checkLibrary(library).edits;
    library.journal.commit({ label: 'again' }, [tag('p1', 'concept', 'stick')]);
    expect(checkLibrary(library).edits).toBe(before);
    expect(library.journal.nextUndo()?.label).toBe('new game');
  });

  it('undoes and redoes after a restart', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    library.journal.commit({ label: 'tag concept' }, [tag('p1', 'concept', 'mesh')]);
    library.journal.commit({ label: 'change concept' }, [tag('p1', 'concept', 'smash')]);
    library.close();
    library = openLibrary(join(folder, 'herons.tapebook'));
    const concept = () => loadPlays(library.db)[0]?.record.tags.concept;
    library.journal.undo();
    expect(concept()).toBe('mesh');
    library.journal.undo();
    expect(concept()).toBeUndefined();
    library.close();
    library = openLibrary(join(folder, 'herons.tapebook'));
    library.journal.redo();
    library.journal.redo();
    expect(concept()).toBe('smash');
    expect(library.journal.redo()).toBeNull();
  });

  it('takes back the making of a play', () => {
    library.journal.commit({ label: 'new game' }, GAME);
    library.journal.commit({ label: 'new play' }, newPlay('p1', 1));
    library.journal.undo();
    expect(loadPlays(library.db)).toEqual([]);
    library.journal.redo();
    expect(loadPlays(library.db)).toHaveLength(1);
  });

  it('knows a prediction from an entry, and makes it an entry when it is typed', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    library.journal.commit({ label: 'log' }, [
      { entity: 'play', id: 'p1', field: 'down', value: 2, origin: 'predicted' },
      { entity: 'play', id: 'p1', field: 'distance', value: 7, origin: 'predicted' },
    ]);
    expect(loadPlays(library.db)[0]?.predicted).toEqual(['distance', 'down']);
    library.journal.commit({ label: 'confirm' }, [{ entity: 'play', id: 'p1', field: 'down', value: 2 }]);
    expect(loadPlays(library.db)[0]?.predicted).toEqual(['distance']);
    library.journal.undo();
    expect(loadPlays(library.db)[0]?.predicted).toEqual(['distance', 'down']);
  });

  it('rolls the whole gesture back when one change of it cannot stand', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    const before = snapshot(library);
    const dangling: Change = {
      entity: 'tag',
      id: 'p1/concept',
      field: 'value',
      value: ['concept:nothing', null, null, null, null, null, null, null],
    };
    expect(() => library.journal.commit({ label: 'bad' }, [tag('p1', 'front', 'over'), dangling])).toThrow();
    expect(snapshot(library)).toBe(before);
    expect(checkLibrary(library).ok).toBe(true);
  });

  it('rebuilds every table bit for bit, whatever was done, undone and redone', () => {
    const step = fc.oneof(
      fc.record({ kind: fc.constant('play' as const), n: fc.integer({ min: 1, max: 6 }) }),
      fc.record({
        kind: fc.constant('tag' as const),
        n: fc.integer({ min: 1, max: 6 }),
        term: fc.constantFrom('stick', 'mesh', 'smash'),
      }),
      fc.record({
        kind: fc.constant('gain' as const),
        n: fc.integer({ min: 1, max: 6 }),
        gain: fc.integer({ min: -9, max: 80 }),
        predicted: fc.boolean(),
      }),
      fc.record({ kind: fc.constant('undo' as const) }),
      fc.record({ kind: fc.constant('redo' as const) }),
    );
    let run = 0;
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        run += 1;
        const lib = createLibrary(join(folder, `r${run}.tapebook`), { team: 'Herons', level: 'ncaa' });
        try {
          lib.journal.commit({ label: 'game' }, [
            ...GAME,
            ...[1, 2, 3, 4, 5, 6].flatMap((n) => newPlay(`p${n}`, n)),
          ]);
          for (const s of steps) {
            if (s.kind === 'undo') lib.journal.undo();
            else if (s.kind === 'redo') lib.journal.redo();
            else if (s.kind === 'play')
              lib.journal.commit({ label: 'remove' }, [
                { entity: 'play', id: `p${s.n}`, field: 'removed', value: 1 },
              ]);
            else if (s.kind === 'tag')
              lib.journal.commit({ label: 'tag' }, [tag(`p${s.n}`, 'concept', s.term)]);
            else
              lib.journal.commit({ label: 'gain', origin: s.predicted ? 'predicted' : 'entered' }, [
                { entity: 'play', id: `p${s.n}`, field: 'gain', value: s.gain },
              ]);
          }
          expect(checkLibrary(lib)).toMatchObject({ ok: true });
        } finally {
          lib.close();
        }
      }),
      { seed: 20250906, numRuns: 25 },
    );
  });

  it('brings all steps back by undoing everything', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    const start = snapshot(library);
    for (let gain = 0; gain < 50; gain += 1) {
      library.journal.commit({ label: 'gain' }, [{ entity: 'play', id: 'p1', field: 'gain', value: gain }]);
    }
    for (let n = 0; n < 50; n += 1) library.journal.undo();
    expect(snapshot(library)).toBe(start);
  });

  it('merges another station: the latest stamp wins on both, whatever the order of arrival', () => {
    library.journal.commit({ label: 'new game' }, [...GAME, ...newPlay('p1', 1)]);
    const other = createLibrary(join(folder, 'other.tapebook'), {
      team: 'Harlow Ridge Herons',
      level: 'ncaa',
    });
    other.journal.merge([...library.journal.edits()]);
    other.journal.commit({ label: 'tag there' }, [tag('p1', 'concept', 'mesh')]);
    library.journal.commit({ label: 'tag here' }, [tag('p1', 'concept', 'stick')]);
    library.journal.merge([...other.journal.edits()]);
    other.journal.merge([...library.journal.edits()]);
    expect(snapshot(other)).toBe(snapshot(library));
    expect(loadPlays(other.db)[0]?.record.tags.concept).toBe(loadPlays(library.db)[0]?.record.tags.concept);
    other.close();
  });
});

describe('opening a library', () => {
  const problem = (run: () => unknown): string => {
    try {
      run();
    } catch (error) {
      if (error instanceof ProblemError) return error.problem.code;
      throw error;
    }
    return 'none';
  };

  it('refuses a second writer, lets a reader look, and lets the next writer in after close', () => {
    const path = join(folder, 'herons.tapebook');
    expect(problem(() => openLibrary(path))).toBe('library-held');
    const reader = openLibrary(path, { readOnly: true });
    expect(loadPlays(reader.db)).toEqual([]);
    reader.close();
    library.close();
    library = openLibrary(path);
    expect(library.readOnly).toBe(false);
  });

  it('names what is wrong with a file that is no library', () => {
    expect(problem(() => openLibrary(join(folder, 'none.tapebook')))).toBe('library-missing');
    expect(problem(() => createLibrary(join(folder, 'herons.tapebook'), { team: 'x', level: 'ncaa' }))).toBe(
      'library-exists',
    );
    expect(problem(() => createLibrary(join(folder, 'no', 'x.tapebook'), { team: 'x', level: 'ncaa' }))).toBe(
      'folder-missing',
    );
  });
});
