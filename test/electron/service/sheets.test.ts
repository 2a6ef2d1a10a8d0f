import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createLibrary } from '../../../db/library.ts';
import { exportPlays, listPlays } from '../../../electron/service/actions/sheets/export.ts';
import { type ImportReport, importSheet, mapFor } from '../../../electron/service/actions/sheets/import.ts';
import type { SheetMap } from '../../../electron/service/actions/sheets/mapping.ts';
import { openSheet, previewSheet } from '../../../electron/service/actions/sheets/preview.ts';
import { Station } from '../../../electron/service/station.ts';
import { ProblemError } from '../../../football/result.ts';

let folder: string;
let station: Station;
let opened: Station[] = [];

function newStation(name: string): Station {
  const made = new Station(
    createLibrary(join(folder, `${name}.tapebook`), { team: 'Herons', level: 'ncaa' }),
    'coach',
  );
  opened.push(made);
  return made;
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-sheets-'));
  station = newStation('h');
});

afterEach(async () => {
  for (const s of opened) await s.close();
  opened = [];
  rmSync(folder, { recursive: true, force: true });
});

async function bringIn(
  content: string | Buffer,
  map: Partial<SheetMap> | null = null,
  into = station,
): Promise<ImportReport> {
  const path = join(folder, 'sheet.csv');
  writeFileSync(path, content);
  const sheet = await openSheet(path);
  return importSheet(into, sheet, { map: mapFor(into, sheet, map), gameTitle: 'Herons v Mariners' });
}

describe('bringing a sheet in', () => {
  it('reads columns by their names: spots, clocks, flags, players, terms by other spellings', async () => {
    const report = await bringIn(
      'Play,Qtr,Clock,Offense,Dn,Dist,Ball on,Hash,Concept,Coverage,Result,Gain,Target,TD,Notes\n' +
        '1,1,10:00,Herons,1,10,-35,Left,stick,c3,complete,7,#84 Ira Novak,no,"good, clean"\n' +
        '2,1,9:21,Herons,2,3,+20,R,Four Verticals,Cover 3 Sky,C,20,84 Ira Novak,yes,\n',
    );
    expect(report).toMatchObject({ imported: 2, refused: [], newTerms: [] });
    expect(listPlays(station, '')).toMatchObject([
      {
        playNumber: 1,
        clock: 600,
        yardsToGoal: 65,
        hash: 'L',
        coverage: 'Cover 3',
        target: '#84 Ira Novak',
        touchdown: false,
        note: 'good, clean',
      },
      {
        playNumber: 2,
        clock: 561,
        yardsToGoal: 20,
        concept: 'four verticals',
        coverage: 'Cover 3 sky',
        result: 'complete',
        touchdown: true,
      },
    ]);
    expect(station.vocabulary().players).toHaveLength(1);
  });

  it('makes no doubles of the same sheet, and keeps what a later sheet leaves empty', async () => {
    const sheet = 'playNumber,concept,gain\n1,mesh,4\n2,stick,6\n';
    await bringIn(sheet);
    expect(await bringIn(sheet)).toMatchObject({ imported: 0, updated: 0, unchanged: 2 });
    expect(await bringIn('playNumber,concept,gain\n1,,9\n2,,\n')).toMatchObject({
      imported: 0,
      updated: 1,
      unchanged: 1,
    });
    expect(listPlays(station, '', ['concept', 'gain'])).toMatchObject([
      { concept: 'mesh', gain: 9 },
      { concept: 'stick', gain: 6 },
    ]);
  });

  it('refuses a cell by row and column and brings the rest of the row in', async () => {
    const report = await bringIn(
      'playNumber,down,hash,gain,concept\n1,7,L,4,mesh\n2,1,far,x,stick\n,1,L,4,mesh\n2,1,L,4,mesh\n',
    );
    expect(report.imported).toBe(2);
    expect(report.refused.map(({ row, column }) => [row, column])).toEqual([
      [1, 'down'],
      [2, 'hash'],
      [2, 'gain'],
      [3, 'playNumber'],
      [4, 'playNumber'],
    ]);
    for (const { reason } of report.refused) expect(reason.length).toBeGreaterThan(10);
    expect(listPlays(station, 'playNumber = 2', ['concept', 'down'])).toMatchObject([
      { concept: 'stick', down: 1 },
    ]);
  });

  it('maps values as it is told, leaves out what is mapped to nothing, and remembers the map', async () => {
    const map = {
      columns: { nr: 'playNumber', Look: 'coverage', Res: 'result' },
      values: { coverage: { Quarters: 'Cover 4', None: '' }, result: { X: 'incomplete' } },
    };
    await bringIn('nr,Look,Res\n1,Quarters,X\n2,None,C\n3,NA,C\n', map);
    expect(listPlays(station, '', ['coverage', 'result'])).toMatchObject([
      { coverage: 'Cover 4', result: 'incomplete' },
      { coverage: null, result: 'complete' },
      { coverage: null, result: 'complete' },
    ]);
    const again = await bringIn('nr,Look,Res\n4,Quarters,X\n');
    expect(again.imported).toBe(1);
    expect(listPlays(station, 'playNumber = 4', ['coverage'])).toMatchObject([{ coverage: 'Cover 4' }]);
  });

  it('says which words are new terms, and shows before anything is changed how a sheet would be read', async () => {
    writeFileSync(join(folder, 'p.csv'), 'playNumber,concept,coverage\n1,yankee,c2\n2,yankee,c2\n');
    const preview = previewSheet(station, await openSheet(join(folder, 'p.csv')), null);
    expect(preview.values).toEqual(
      expect.arrayContaining([
        { field: 'concept', theirs: 'yankee', ours: 'yankee', isNew: true, count: 2 },
        { field: 'coverage', theirs: 'c2', ours: 'Cover 2', isNew: false, count: 2 },
      ]),
    );
    expect(listPlays(station, '')).toEqual([]);
  });

  it('refuses a map that names what is not there, whole', async () => {
    for (const columns of [
      { nothing: 'down' },
      { playNumber: 'dwn' },
      { playNumber: 'playNumber', concept: 'playNumber' },
    ]) {
      await expect(
        bringIn('playNumber,concept\n1,mesh\n', {
          columns: columns as unknown as Record<string, string>,
          values: {},
        }),
      ).rejects.toThrow(ProblemError);
    }
    expect(listPlays(station, '')).toEqual([]);
  });

  it('takes a sheet without play numbers in its order', async () => {
    await bringIn('concept,gain\nmesh,4\nstick,6\n');
    expect(listPlays(station, '', ['playNumber', 'concept'])).toMatchObject([
      { playNumber: 1, concept: 'mesh' },
      { playNumber: 2, concept: 'stick' },
    ]);
  });

  it.each([
    ['semicolons', Buffer.from('playNumber;note\n1;Müller;\n')],
    [
      'UTF-16',
      Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from('playNumber,note\n1,Müller\n', 'utf16le')]),
    ],
    ['Windows-1252', Buffer.from('playNumber,note\n1,M\xfcller\n', 'latin1')],
    ['a byte order mark', Buffer.from('\uFEFFplayNumber,note\n1,Müller\n')],
    ['tabs', Buffer.from('playNumber\tnote\n1\tMüller\n')],
  ])('reads %s', async (_name, bytes) => {
    expect(await bringIn(bytes)).toMatchObject({ imported: 1 });
    expect(listPlays(station, '', ['note'])).toMatchObject([{ note: 'Müller' }]);
  });

  it('names what is wrong with a file that is no sheet', async () => {
    for (const bytes of [
      Buffer.alloc(0),
      Buffer.from([0, 1, 2, 0, 255, 7]),
      Buffer.from('PK\x03\x04 not really'),
    ]) {
      await expect(bringIn(bytes)).rejects.toThrow(ProblemError);
    }
    await expect(openSheet(join(folder, 'none.csv'))).rejects.toThrow(/no sheet/);
  });
});

describe('taking plays out', () => {
  const SHEET =
    'playNumber,quarter,clock,possession,down,distance,yardsToGoal,hash,concept,coverage,playKind,result,gain,target,firstDown,note\n' +
    '1,1,9:30,Herons,1,10,65,L,mesh,Cover 1,pass,complete,12,#84 Ira Novak,yes,=SUM(A1)\n' +
    '2,1,9:02,Herons,1,10,53,R,power,Cover 3 sky,run,rush,-2,,no,+1 for effort\n' +
    '3,1,8:40,Herons,2,12,50,M,,,pass,incomplete,0,,,@home\n';

  it.each(['csv', 'xlsx'])('writes a %s that brings the same plays into another library', async (ending) => {
    await bringIn(SHEET);
    const to = join(folder, `out.${ending}`);
    expect(await exportPlays(station, { where: '', to })).toBe(3);
    const other = newStation('other');
    const sheet = await openSheet(to);
    expect(importSheet(other, sheet, { map: mapFor(other, sheet, null), gameTitle: null })).toMatchObject({
      imported: 3,
      refused: [],
    });
    const plain = (s: Station) => listPlays(s, '').map(({ playId: _, ...rest }) => rest);
    expect(plain(other)).toEqual(plain(station));
  });

  it('writes no cell that a spreadsheet would run', async () => {
    await bringIn(SHEET);
    await exportPlays(station, { where: '', to: join(folder, 'out.csv') });
    const text = await readFile(join(folder, 'out.csv'), 'utf8');
    const cells = text.split(/\r?\n/).flatMap((line) => line.split(','));
    // spots and negative numbers are no formulas
    const dangerous = cells.filter((c) => /^"?[=+\-@\t]/.test(c) && !/^[+-]\d+(\.\d+)?$/.test(c));
    expect(dangerous).toEqual([]);
    expect(text).toContain("'=SUM(A1)");
  });

  it('leaves no half file where it cannot write, and says why', async () => {
    await bringIn(SHEET);
    await expect(
      exportPlays(station, { where: '', to: join(folder, 'no', 'such', 'out.csv') }),
    ).rejects.toThrow(/could not be written/);
    await expect(exportPlays(station, { where: '', to: join(folder, 'out.doc') })).rejects.toThrow(/neither/);
  });
});
