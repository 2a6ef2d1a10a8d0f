import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import { createLibrary } from '../../../db/library.ts';
import { answer, table } from '../../../electron/service/actions/answers.ts';
import { cutups } from '../../../electron/service/actions/cutups.ts';
import { addGame } from '../../../electron/service/actions/games.ts';
import { cutReport, makeReport, reportTeams } from '../../../electron/service/actions/report.ts';
import {
  copyTemplate,
  resetTemplate,
  saveTemplate,
  templates,
} from '../../../electron/service/actions/report-templates.ts';
import { importSheet } from '../../../electron/service/actions/sheets/import.ts';
import type { SheetMap } from '../../../electron/service/actions/sheets/mapping.ts';
import { openSheet } from '../../../electron/service/actions/sheets/preview.ts';
import { addPlay, tagPlay, undo } from '../../../electron/service/actions/tags.ts';
import { writeReport } from '../../../electron/service/film/write-report.ts';
import { Station } from '../../../electron/service/station.ts';
import type { Report, ReportCell } from '../../../football/report/report.ts';
import { gameOf, problemOf, testStation } from '../../support/station.ts';

const MADE = '2025-11-01';

function log(station: Station, playId: string, values: Record<string, string | number>): void {
  const termFields = new Set(['possession', 'concept', 'coverage', 'playKind', 'result']);
  tagPlay(station, {
    playId,
    changes: Object.entries(values).map(([field, value]) => ({
      field,
      value: termFields.has(field)
        ? {
            kind: 'term',
            termId: station.vocabulary().findTerm(field, String(value))?.id ?? '',
            name: String(value),
          }
        : { kind: 'number', number: Number(value) },
    })),
  });
}

const cells = (report: Report): ReportCell[] =>
  report.sections.flatMap((s) => s.tables.flatMap((t) => t.rows.flat()));
const section = (report: Report, key: string) => report.sections.find((s) => s.key === key)!;

describe('a report on few plays', () => {
  const made = testStation();
  afterAll(() => made.remove());

  it('refuses a team that nothing names, and says which there are', async () => {
    const problem = await problemOf(() => makeReport(made.station, { kind: 'opponent', about: 'Foxes' }));
    expect(problem.code).toBe('team-unknown');
  });

  it('says plainly that there are no plays, and what one play is worth', () => {
    const { playIds } = gameOf(made.station, 1);
    const none = makeReport(made.station, { kind: 'opponent', about: 'Mariners', made: MADE });
    expect(none.plays).toBe(0);
    expect(none.cautions[0]).toBe('There are no plays to report on yet.');
    expect(none.sections.every((s) => s.tables.length === 0 && s.empty === 'No play answers this.')).toBe(
      true,
    );
    log(made.station, playIds[0]!, {
      possession: 'Mariners',
      down: 1,
      distance: 10,
      yardsToGoal: 65,
      playKind: 'run',
      result: 'rush',
      gain: 4,
      concept: 'inside zone',
    });
    const one = makeReport(made.station, { kind: 'opponent', about: 'mariners', made: MADE });
    expect(one.plays).toBe(1);
    expect(one.cautions[0]).toContain('stands on 1 play');
    const [row] = section(one, 'kind-down').tables[0]!.rows;
    expect(row!.map((c) => c.text)).toEqual(['1st & 10', '100 %']);
    // Wilson 1 of 1: 0.2065 to 1 (formula as in football/metrics/wilson.ts, tested there against published values)
    expect(row![1]).toMatchObject({ detail: '1 of 1 · 21–100', small: true, playIds: [playIds[0]] });
  });

  it('keeps what they call apart from what is called against them, also in a game without us', () => {
    const { station } = made;
    const [ours, theirs] = gameOfOthers(station, 'Foxes v Mariners', 'Foxes');
    log(station, ours!, {
      possession: 'Foxes',
      down: 1,
      distance: 10,
      playKind: 'pass',
      result: 'complete',
      gain: 20,
      coverage: 'Cover 3',
    });
    log(station, theirs!, { possession: 'Mariners', down: 1, distance: 10, playKind: 'run', gain: 3 });
    const report = makeReport(station, { kind: 'opponent', about: 'Mariners', made: MADE });
    expect(section(report, 'kind-down').playIds).toContain(theirs);
    expect(section(report, 'kind-down').playIds).not.toContain(ours);
    expect(section(report, 'coverage-down').playIds).toEqual([ours]);
    expect(section(report, 'explosives').playIds).toEqual([ours]);
    expect(reportTeams(station)).toEqual(['Foxes', 'Mariners']);
  });

  it('makes the cut-ups of its sections in one folder, and one undo takes them back', () => {
    const { station } = made;
    const request = { kind: 'opponent', about: 'Mariners', made: MADE } as const;
    const cut = cutReport(station, request, null);
    const all = cutups(station);
    expect(all).toHaveLength(cut.cutups);
    expect(new Set(all.map((c) => c.folder))).toEqual(new Set([`Scouting report: Mariners, ${MADE}`]));
    undo(station);
    expect(cutups(station)).toHaveLength(0);
  });
});

function gameOfOthers(station: Station, title: string, opponent: string): string[] {
  const { gameId } = addGame(station, { title, season: 2025, opponent });
  return [addPlay(station, gameId, null).playId, addPlay(station, gameId, null).playId];
}

describe('a template of a report', () => {
  const made = testStation();
  afterAll(() => made.remove());

  it('is changed, copied and reset by gestures that undo takes back and the journal rebuilds', async () => {
    const { station } = made;
    const first = templates(station).find((t) => t.id === 'opponent')!;
    const { own: _, builtIn: __, ...plain } = first;
    saveTemplate(station, { ...plain, smallSample: 5, sections: [...plain.sections].reverse() });
    expect(templates(station).find((t) => t.id === 'opponent')).toMatchObject({ smallSample: 5, own: true });
    const copies = copyTemplate(station, 'opponent', 'For Saturday');
    expect(copies.at(-1)).toMatchObject({ name: 'For Saturday', smallSample: 5, builtIn: false });
    undo(station);
    expect(templates(station)).toHaveLength(3);
    resetTemplate(station, 'opponent');
    expect(templates(station).find((t) => t.id === 'opponent')).toMatchObject({
      smallSample: 20,
      own: false,
    });
    undo(station);
    const reopened = await made.reopen();
    expect(checkLibrary(reopened.library)).toMatchObject({ ok: true, journal: [] });
    expect(templates(reopened).find((t) => t.id === 'opponent')).toMatchObject({ smallSample: 5, own: true });
  });

  it('refuses a question that cannot be read and a field that is not there', async () => {
    const { station } = made;
    const [first] = templates(station);
    const wrong = (change: object) =>
      problemOf(() =>
        saveTemplate(station, { ...first!, sections: [{ ...first!.sections[0]!, ...change }] }),
      );
    expect((await wrong({ where: 'dwon = 3' })).at).toMatchObject({ start: 0 });
    expect((await wrong({ rows: 'colour' })).code).toBe('template-unfit');
  });
});

const DATA = '../shared/data/bdb2025_2022_plays.csv.gz';

describe.skipIf(!existsSync(DATA))(
  'a report over real plays (skipped where the open data is not beside the project)',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'tapebook-report-'));
    let station: Station;
    let report: Report;

    beforeAll(async () => {
      // two weeks of the season are enough to hold every number to the Ask room's
      const lines = gunzipSync(readFileSync(DATA)).toString('utf8').split('\n');
      writeFileSync(join(folder, 'plays.csv'), lines.slice(0, 2500).join('\n'));
      station = new Station(
        createLibrary(join(folder, 'real.tapebook'), { team: 'NE', level: 'nfl' }),
        'coach',
      );
      const map = JSON.parse(readFileSync('test/fixtures/open-plays-map.json', 'utf8')) as SheetMap;
      importSheet(station, await openSheet(join(folder, 'plays.csv')), { map, gameTitle: null });
      report = makeReport(station, { kind: 'opponent', about: 'BUF', made: MADE });
    });
    afterAll(async () => {
      await station.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it('gives the same counts as the same questions in the Ask room', () => {
      let checked = 0;
      for (const key of ['coverage-down', 'coverage-formation', 'kind-formation']) {
        const s = section(report, key);
        const total = s.tables[0]!.rows.at(-1)!;
        expect(answer(station, s.where).playIds.filter((id) => s.playIds.includes(id))).toEqual(s.playIds);
        const field = key.startsWith('kind') ? 'playKind' : 'coverage';
        const asked = table(station, { where: s.where, rows: field, families: true });
        for (const [i, name] of s.tables[0]!.columns.entries()) {
          if (i === 0 || name === 'other') continue;
          expect(total[i]!.playIds, name).toEqual(asked.rows.find((r) => r.key === name)?.playIds);
          checked += 1;
        }
      }
      expect(checked).toBeGreaterThan(8);
      const best = section(report, 'concepts-against');
      const byConcept = table(station, {
        where: best.where,
        rows: 'concept',
        metrics: ['calls', 'successRate'],
      });
      for (const row of best.tables[0]!.rows) {
        const same = byConcept.rows.find((r) => r.key === row[0]!.text)!;
        expect(row[1]!.text).toBe(String(same.metrics.calls));
        expect(Number.parseInt(row[2]!.text, 10)).toBe(Math.round(same.metrics.successRate!));
        expect(Number.parseInt(row[3]!.text, 10)).toBe(Math.round(same.intervals.successRate![0]));
      }
    });

    it('puts a count beside every share, and orders the best by what they are sure of', () => {
      const shares = report.sections
        .filter((s) => s.key.includes('-down'))
        .flatMap((s) => s.tables.flatMap((t) => t.rows.flatMap((r) => r.slice(1))));
      for (const c of shares) expect(c.detail, c.text).toMatch(/^\d+ of \d+ · \d+–\d+$/);
      const low = section(report, 'concepts-against').tables[0]!.rows.map((r) =>
        Number.parseInt(r[3]!.text, 10),
      );
      expect([...low].sort((a, b) => b - a)).toEqual(low);
    });

    it('prints the same numbers, and the same bytes for the same report', async () => {
      const to = (name: string) =>
        ({ kind: 'opponent', about: 'BUF', made: MADE, film: false, to: join(folder, name) }) as const;
      await writeReport(station, to('a.pdf'));
      await writeReport(station, to('b.pdf'));
      expect(readFileSync(join(folder, 'a.pdf')).equals(readFileSync(join(folder, 'b.pdf')))).toBe(true);
      await writeReport(station, to('page'));
      expect(readdirSync(join(folder, 'page'))).toEqual(['index.html']);
      const page = readFileSync(join(folder, 'page', 'index.html'), 'utf8');
      expect(page).not.toMatch(/https?:|<script/);
      for (const c of cells(report)) if (c.detail) expect(page).toContain(c.detail);
    });

    it('has its numbers as text in the PDF (where pdftotext is on the machine)', ({ skip }) => {
      let text = '';
      try {
        text = execFileSync('pdftotext', ['-layout', join(folder, 'a.pdf'), '-'], { encoding: 'utf8' });
      } catch {
        skip('pdftotext is not here');
      }
      for (const c of cells(report)) if (c.detail?.includes(' of ')) expect(text).toContain(c.detail);
    });
  },
);
