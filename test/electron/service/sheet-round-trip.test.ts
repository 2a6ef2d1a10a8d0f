import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { exportPlays, listPlays, type PlainRow } from '../../../electron/service/actions/sheets/export.ts';
import { type ImportReport, importSheet, mapFor } from '../../../electron/service/actions/sheets/import.ts';
import { openSheet } from '../../../electron/service/actions/sheets/preview.ts';
import { addPlay, tagPlay } from '../../../electron/service/actions/tags.ts';
import type { Station } from '../../../electron/service/station.ts';
import type { FieldValue } from '../../../football/values.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { gameOf, type TestStation, testStation } from '../../support/station.ts';

let homes: TestStation[] = [];
let station: Station;
let folder: string;
let gameId: string;

const open = () => {
  const home = testStation();
  homes.push(home);
  return home;
};

beforeEach(() => {
  ({ station, folder } = open());
  ({ gameId } = gameOf(station, 0));
});
afterEach(async () => {
  for (const home of homes) await home.remove();
  homes = [];
});

/** Texts that a spreadsheet would run, cut in two, or take for something else. */
const TRAPS = [
  '=HYPERLINK("http://elsewhere.example";"x")',
  '+1+1',
  '-2+3',
  '@SUM(A1)',
  "'=quoted already",
  "''",
  '＝1+1',
  'semi; colon, comma\ttab',
  'two\nlines',
  'said "late"',
  'Größe – naïve 日本',
  '007',
  '1e5',
  '-35',
  '+20',
  'yes',
  'TRUE',
  '2025-09-06',
  '10:00',
];
/** Words that mean "nothing stands here" in a sheet, and so do not come back as text. */
const NOTHING = /^(na|n\/a|null|nan|none given|-|--|—)?$/i;

function anyValueOf(field: FieldDefinition): fc.Arbitrary<FieldValue> {
  const text = fc
    .oneof(
      fc.constantFrom(...TRAPS),
      fc.string({ unit: 'grapheme', maxLength: 30 }),
      fc.string({ unit: fc.constantFrom(...'=+-@\'",;\t ab1'), maxLength: 8 }),
    )
    .map((t) => t.trim())
    // a line break of an old Mac or a control character is no text that anybody types
    .filter((t) => !NOTHING.test(t) && !/[\p{Cc}\u2028\u2029\uFEFF]/u.test(t.replaceAll(/[\n\t]/g, '')));
  switch (field.kind) {
    case 'flag':
      return fc.boolean().map((flag) => ({ kind: 'flag', flag }));
    case 'text':
      return text.map((t) => ({ kind: 'text', text: t }));
    case 'player':
      return fc
        .record({
          number: fc.option(fc.integer({ min: 0, max: 99 })),
          name: fc.constantFrom(null, 'Ira Novak', "D'Andre O'Neil", 'Åke Östlund-Ray', 'van den Berg'),
        })
        .filter((p) => p.number !== null || p.name !== null)
        .map((p) => ({ kind: 'player', playerId: null, team: null, ...p }));
    case 'term': {
      const known = station.vocabulary().terms.filter((t) => t.field === field.key);
      const names = fc.constantFrom(
        ...known.map((t) => t.name),
        ...(field.closed ? [] : ['Yankee 50/50', '+1 max']),
      );
      return names.map((name) => ({ kind: 'term', termId: '', name }));
    }
    case 'clock':
      return fc.integer({ min: 0, max: 900 }).map((number) => ({ kind: 'number', number }));
    case 'spot':
      return fc.integer({ min: 1, max: 99 }).map((number) => ({ kind: 'number', number }));
    default:
      return fc.integer({ min: 1, max: 4 }).map((number) => ({ kind: 'number', number }));
  }
}

async function bringIn(into: Station, path: string): Promise<ImportReport> {
  const sheet = await openSheet(path);
  return importSheet(into, sheet, { map: mapFor(into, sheet, null), gameTitle: null });
}

/** A play without its identity, which is another in every library. */
const saying = (rows: readonly PlainRow[]) => rows.map(({ playId: _, timeToThrow: __, ...rest }) => rest);

describe('a sheet of plays', () => {
  it.each(['csv', 'xlsx'])(
    'brought in again as %s gives the same plays, whatever stands in them',
    async (ending) => {
      const fields = station
        .vocabulary()
        .fields.all.filter((f) => (f.home === 'play' || f.home === 'tag') && f.key !== 'playNumber');
      const teams = fc
        .constantFrom('Herons', 'Mariners')
        .map((name): FieldValue => ({ kind: 'term', termId: '', name }));
      const play = fc.subarray(fields, { minLength: 1 }).chain((chosen) =>
        fc.tuple(
          ...chosen.map((field) =>
            (field.key === 'possession' ? teams : anyValueOf(field)).map((value) => ({
              field: field.key,
              value,
            })),
          ),
        ),
      );
      for (const changes of fc.sample(play, { seed: ending === 'csv' ? 20250927 : 20251004, numRuns: 120 })) {
        const { playId } = addPlay(station, gameId, null);
        tagPlay(station, { playId, changes });
      }
      const path = join(folder, `plays.${ending}`);
      expect(await exportPlays(station, { where: '', to: path })).toBe(120);
      const other = open().station;
      expect(await bringIn(other, path)).toMatchObject({ imported: 120, updated: 0, refused: [] });
      expect(saying(listPlays(other, ''))).toEqual(saying(listPlays(station, '')));
      // and a third time, into a library that has them
      expect(await bringIn(other, path)).toMatchObject({
        imported: 0,
        updated: 0,
        unchanged: 120,
        newTerms: [],
      });
      const names = (s: Station) => s.vocabulary().terms.map((t) => `${t.field}: ${t.name}`);
      expect(names(other)).toEqual(
        expect.arrayContaining(names(station).filter((n) => /Yankee|\+1 max/.test(n))),
      );
    },
  );
});
