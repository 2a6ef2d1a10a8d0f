import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { openLibrary } from '../../../db/library.ts';
import { type Said, tapebook, tapebookHere } from '../../support/command-line.ts';

// each command is a process of its own, and a machine may be busy
vi.setConfig({ testTimeout: 120_000 });

/** Sample film: one play, two angles. */
const SIDELINE = 'sample-clips/herons-mariners-018-sideline.mp4';
const END_ZONE = 'sample-clips/herons-mariners-018-endzone.mp4';
const GAME = 'Herons v Mariners';
/** The fields and metrics that a script may count on from the start. */
const FIELDS =
  'game,season,drive,playNumber,quarter,clock,possession,down,distance,yardsToGoal,hash,personnel,formation,receivers,motion,concept,protection,front,coverage,pressure,rushers,playKind,result,gain,airYards,yardsAfterCatch,passer,target,route,readKey,firstDown,touchdown,turnover,penalty,note'.split(
    ',',
  );
const METRICS =
  'calls,dropbacks,attempts,completions,completionPct,yards,passYards,yardsPerAttempt,yardsPerCompletion,yardsAfterCatch,successRate,explosiveRate,firstDowns,touchdowns,interceptions,sacks,timeToThrow'.split(
    ',',
  );
const SHEET = `Play,Dn,Dist,Ball on,Hash,Kind,Result,Gain,Concept,Coverage
1,1,10,-35,Left,pass,complete,7,stick,Cover 3 sky
2,2,3,-42,R,run,rush,2,power,Cover 1
3,3,1,-44,R,pass,interception,0,mesh,Cover 3 buzz
4,9,1,-44,R,pass,incomplete,0,stick,Cover 3 sky
`;
/** A game whose box score is soon counted by hand; after 1st and 10 and a gain of 5 comes no 3rd down. */
const SHORT_GAME = `Play,Dn,Dist,Ball on,Kind,Result,Gain,Possession
1,1,10,-35,pass,complete,7,Herons
2,2,3,-42,run,rush,2,Herons
3,3,1,-44,pass,interception,0,Herons
4,1,10,+40,run,rush,5,Millers
5,3,5,+35,run,rush,1,Millers
`;

let folder: string;
let library: string;
const at = (name: string) => join(folder, name);
/** A command on the library, asking for JSON. */
const on = (...args: string[]) => tapebook([...args, '--library', library, '--json'], folder);
/** The same within this process. */
const here = (...args: string[]) => tapebookHere([...args.map(pathOf), '--library', library, '--json']);
const pathOf = (arg: string) => (arg === 'week 1.csv' ? at(arg) : arg);
const film = (path: string) => join(process.cwd(), path);

function expectDone<T>(said: Said, exit = 0): T {
  expect(said.err.includes('did not work') ? said.err : '').toBe('');
  expect(said.exit, said.err).toBe(exit);
  return said.json<T>();
}

/** Not done: nothing on standard output, one line on standard error. */
function expectRefused(said: Said, words: RegExp): void {
  expect(said.err).toMatch(words);
  expect(said.err.trim().split('\n'), said.err).toHaveLength(1);
  expect(said.err).not.toMatch(/did not work|undefined|\bat .*\.ts/);
  expect(said).toMatchObject({ exit: 2, out: '' });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-cli-'));
  library = at('herons.tapebook');
  writeFileSync(at('week 1.csv'), SHEET);
  expect(expectDone(await on('new', '--team', 'Herons', '--level', 'ncaa'))).toEqual({
    library,
    team: 'Herons',
    level: 'ncaa',
  });
  expectDone(await on('plays', 'import', 'week 1.csv', '--game', GAME), 1);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the command line, on its way through the main job', () => {
  it('fields lists every field with its terms and their families', async () => {
    interface Field {
      key: string;
      label: string;
      kind: string;
      terms?: { name: string; family: string | null }[];
    }
    const fields = new Map(expectDone<Field[]>(await on('fields')).map((f) => [f.key, f]));
    expect([...fields.keys()]).toEqual(expect.arrayContaining(FIELDS));
    for (const field of fields.values()) expect(field.label && field.kind).toBeTruthy();
    const names = (key: string) => fields.get(key)?.terms?.map((t) => t.name);
    expect(names('playKind')).toEqual(
      expect.arrayContaining('pass,run,punt,kickoff,fieldGoal,try,kneel,spike,noPlay'.split(',')),
    );
    expect(names('result')).toEqual(
      expect.arrayContaining('complete,incomplete,interception,sack,scramble,throwaway,rush'.split(',')),
    );
    expect(fields.get('coverage')?.terms).toContainEqual(
      expect.objectContaining({ name: 'Cover 3 sky', family: 'Cover 3' }),
    );
  });

  it('plays import brings a sheet in, says what it refused, and adds nothing the second time', async () => {
    const again = await on('plays', 'import', 'week 1.csv', '--game', GAME);
    expect(expectDone(again, 1)).toMatchObject({
      imported: 0,
      updated: 0,
      newTerms: [],
      refused: [{ row: 4, column: 'Dn', reason: expect.stringContaining('from 1 to 4') }],
    });
    expect(again.err).toContain('Row 4, Dn');
    writeFileSync(at('other.csv'), 'No,Look,What\n7,THREE-S,Stick Nod\n');
    const map = {
      columns: { No: 'playNumber', Look: 'coverage', What: 'concept' },
      values: { coverage: { 'THREE-S': 'Cover 3 sky' } },
    };
    const mapped = await on('plays', 'import', 'other.csv', '--game', GAME, '--map', JSON.stringify(map));
    expect(expectDone(mapped)).toMatchObject({
      imported: 1,
      updated: 0,
      newTerms: [{ field: 'concept', name: 'Stick Nod' }],
      refused: [],
    });
    expectDone(await on('undo'));
  });

  it('plays list finds plays by an SQL WHERE clause and gives the fields asked for', async () => {
    const where = "coverage = 'Cover 3' AND gain BETWEEN 0 AND 7";
    const plays = expectDone<object[]>(
      await on('plays', 'list', '--where', where, '--fields', 'playNumber,coverage,yardsToGoal'),
    );
    expect(plays).toEqual([
      { playId: expect.any(String), playNumber: 1, coverage: 'Cover 3 sky', yardsToGoal: 65 },
      { playId: expect.any(String), playNumber: 3, coverage: 'Cover 3 buzz', yardsToGoal: 56 },
      { playId: expect.any(String), playNumber: 4, coverage: 'Cover 3 sky', yardsToGoal: 56 },
    ]);
    const whole = expectDone<Record<string, unknown>[]>(
      await on('plays', 'list', '--where', 'playNumber = 1'),
    );
    for (const key of ['playId', ...FIELDS]) expect(Object.keys(whole[0] ?? {})).toContain(key);
  });

  it('table counts rows by columns, and every cell carries its plays', async () => {
    const { rows } = expectDone<{ rows: Record<string, unknown>[] }>(
      await on('table', '--rows', 'coverage', '--cols', 'down', '--metrics', METRICS.join(',')),
    );
    const cell = rows.find((r) => r.key === 'Cover 3 sky' && r.col === 1);
    expect(Object.keys(cell ?? {}).sort()).toEqual(['key', 'col', 'playIds', ...METRICS].sort());
    expect(cell).toMatchObject({ calls: 1, attempts: 1, completions: 1, completionPct: 100, passYards: 7 });
    expect(cell?.playIds).toHaveLength(1);
    const plain = expectDone<{ rows: Record<string, unknown>[] }>(
      await on('table', '--rows', 'concept', '--where', "playKind = 'run'", '--metrics', 'calls,yards'),
    );
    expect(plain.rows).toEqual([{ key: 'power', calls: 1, yards: 2, playIds: [expect.any(String)] }]);
  });

  it('log tags as the Log room does, whatever the line begins with', async () => {
    const line = '-42 l c:power run ru g4';
    const { play, words } = expectDone<{ play: object; words: { text: string; means: string }[] }>(
      await on('log', '--game', GAME.toUpperCase(), '--play', '2', line),
    );
    expect(play).toMatchObject({ playNumber: 2, hash: 'L', gain: 4, yardsToGoal: 58, firstDown: true });
    expect(words.map((w) => w.text)).toEqual(['-42', 'l', 'c:power', 'run', 'ru', 'g4']);
    expect(words.at(-1)).toMatchObject({ means: 'Gain: 4' });
  });

  it('log with a word it does not understand stores nothing of the line', async () => {
    const play = async () => (await here('plays', 'list', '--where', 'playNumber = 1')).out;
    const before = await play();
    expectRefused(await on('log', '--game', GAME, '--play', '1', 'c:mesh g9 wobble'), /wobble/);
    expectRefused(await on('log', '--game', 'Herons v Terns', '--play', '1', 'g9'), /no game Herons v Terns/);
    expect(await play()).toBe(before);
  });

  it('undo and redo go from one process to the next', async () => {
    const gain = async () =>
      (await on('plays', 'list', '--where', 'playNumber = 2', '--fields', 'gain')).json<
        { gain: number }[]
      >()[0];
    expect(expectDone(await on('undo'))).toMatchObject({ done: 'log play 2' });
    expect(await gain()).toMatchObject({ gain: 2 });
    expect(expectDone(await on('redo'))).toMatchObject({ done: 'log play 2' });
    expect(await gain()).toMatchObject({ gain: 4 });
    expect(expectDone(await on('redo'))).toMatchObject({ done: null });
  });

  it('film add takes what can be read, and names what cannot', async () => {
    writeFileSync(at('broken.mp4'), 'no film');
    const args = ['film', 'add', film(SIDELINE), film(END_ZONE), 'broken.mp4', 'nowhere.mp4'];
    const said = await on(...args, '--game', 'Herons v Stags', '--one-play-per-file');
    const { added, refused } = expectDone<{ added: object[]; refused: { path: string; reason: string }[] }>(
      said,
      1,
    );
    expect(added).toHaveLength(2);
    for (const one of added)
      expect(Object.keys(one).sort()).toEqual(
        ['filmId', 'path', 'frames', 'fps', 'seconds', 'width', 'height', 'codec'].sort(),
      );
    expect(refused.map((r) => r.path).sort()).toEqual([at('broken.mp4'), at('nowhere.mp4')]);
    for (const { reason } of refused) expect(reason).toMatch(/\w+ .*\./);
    expect(said.err.trim().split('\n')).toHaveLength(2);
    // two angles of one play are one play
    expect((await on('plays', 'list', '--where', "game = 'Herons v Stags'")).json()).toHaveLength(1);
    const none = await on('film', 'add', 'broken.mp4', '--game', 'Herons v Foxes');
    expect(none.exit).toBe(2);
    expect(none.json()).toMatchObject({ added: [], refused: [{ path: at('broken.mp4') }] });
  });

  it('clip add makes a play’s clip, and changes it the next time', async () => {
    const args = ['clip', 'add', '--game', GAME, '--play', '1', '--film', film(SIDELINE)];
    const first = expectDone<{ clipId: string }>(await on(...args, '--in', '5', '--out', '40'));
    const second = expectDone(await on(...args, '--in', '10', '--out', '30', '--angle', 'sideline'));
    expect(second).toMatchObject({ clipId: first.clipId, angle: 'sideline', inFrame: 10, outFrame: 30 });
    expectRefused(await here(...args, '--in', '10', '--out', '99999'), /has \d+ frames/);
  });

  it('cutup make, list and export: a reel, a playlist, a sheet', async () => {
    const made = expectDone(
      await on('cutup', 'make', 'First downs', '--where', `playNumber = 1 AND game = '${GAME}'`),
    );
    expect(made).toMatchObject({ name: 'First downs', plays: [expect.any(String)] });
    expect(expectDone<object[]>(await on('cutup', 'list'))).toMatchObject([
      { name: 'First downs', items: 1 },
    ]);
    for (const name of ['reel.mp4', 'list.m3u8', 'plays.csv']) {
      const said = await on('cutup', 'export', 'first downs', '--to', name, '--angles', 'sideline,endzone');
      expect(expectDone(said), name).toMatchObject({ format: name.split('.')[1], path: at(name) });
      expect(existsSync(at(name))).toBe(true);
    }
    expect(readFileSync(at('list.m3u8'), 'utf8')).toMatch(/^#EXTM3U/);
    expect(readFileSync(at('plays.csv'), 'utf8')).toMatch(/^\uFEFFgame,/);
    expectRefused(
      await here('cutup', 'export', 'First downs', '--to', 'reel.avi'),
      /does not end in a format/,
    );
    expectRefused(await here('cutup', 'export', 'Third downs', '--to', 'x.mp4'), /no cut-up Third downs/);
    expectRefused(await here('cutup', 'make', 'First downs', '--where', 'TRUE'), /already a cut-up/);
    expectRefused(await here('cutup', 'make', 'Nothing', '--where', 'gain > 90'), /No play matches/);
    expect(readdirSync(folder).filter((n) => n.includes('.part') || n.endsWith('.avi'))).toEqual([]);
  });

  it('backup writes a library of its own, and check looks one over', async () => {
    expect(expectDone(await on('backup', '--to', 'copy.tapebook'))).toMatchObject({
      path: at('copy.tapebook'),
    });
    expectRefused(await here('backup', '--to', at('copy.tapebook')), /already a file/);
    expectRefused(await here('backup', '--to', at('nowhere/copy.tapebook')), /could not be written/);
    for (const path of [library, at('copy.tapebook')]) {
      const report = await tapebook(['check', '--library', path, '--json']);
      expect(expectDone(report)).toMatchObject({ ok: true, integrity: [], foreignKeys: [], journal: [] });
    }
    const damaged = openLibrary(at('copy.tapebook'));
    damaged.db.exec('UPDATE plays SET gain = 99 WHERE play_number = 1');
    damaged.close();
    const report = await tapebook(['check', '--library', at('copy.tapebook'), '--json']);
    expect(expectDone<{ journal: object[] }>(report, 1).journal).toHaveLength(1);
  });

  it('box counts a game, and audit names the play that cannot follow', async () => {
    const game = ['--game', 'Herons v Millers'];
    writeFileSync(at('short.csv'), SHORT_GAME);
    expectDone(await on('plays', 'import', 'short.csv', ...game));
    expect(expectDone(await on('box', ...game))).toMatchObject({
      level: 'ncaa',
      teams: {
        home: {
          team: 'Herons',
          calls: 3,
          attempts: 2,
          completions: 1,
          passYards: 7,
          rushYards: 2,
          turnovers: 1,
        },
        away: { team: 'Millers', calls: 2, attempts: 0, rushes: 2, rushYards: 6, turnovers: 0 },
      },
      drives: [
        { team: 'Herons', calls: 3, yards: 9, end: 'interception' },
        { team: 'Millers', calls: 2, yards: 6 },
      ],
    });
    const findings = expectDone(await on('audit', ...game));
    expect(findings).toEqual([
      expect.objectContaining({
        playNumber: 5,
        fields: ['down'],
        message: expect.stringContaining('2nd and 5'),
        settle: expect.stringMatching(/./),
      }),
    ]);
    expectRefused(await here('box', '--game', GAME), /needs both teams/);
    expectRefused(await here('audit', '--game', 'Herons v Terns'), /no game Herons v Terns/);
  });

  it('metrics says of every metric how it is counted, and needs no library', async () => {
    const metrics = expectDone<Record<string, unknown>[]>(await tapebook(['metrics', '--json']));
    expect(metrics.map((m) => m.key)).toEqual(expect.arrayContaining(METRICS));
    for (const m of metrics) {
      expect(m.name && m.formula && m.source, String(m.key)).toBeTruthy();
      // an index has no unit
      if (m.kind !== 'index') expect(m.unit, String(m.key)).toBeTruthy();
      // a share or an average that does not say of what is no definition
      if (m.kind !== 'count' && m.kind !== 'sum') expect(m.denominator, String(m.key)).toBeTruthy();
    }
  });

  it('without --json it writes for people', async () => {
    const said = await tapebook(['table', '--rows', 'concept', '--library', library], folder);
    expect(said.exit).toBe(0);
    expect(said.out).toMatch(/^concept\s+Calls/);
    expect(() => said.json()).toThrow();
  });
});

describe('what the command line refuses', () => {
  it.each<[string, string[], RegExp]>([
    ['an unknown game', ['log', '--game', 'Herons v Terns', '--play', '1', 'g3'], /no game Herons v Terns/],
    ['an unknown play', ['log', '--game', GAME, '--play', '77', 'g3'], /no play 77/],
    ['a play that is no number', ['log', '--game', GAME, '--play', 'two', 'g3'], /whole number/],
    ['a line it does not understand', ['log', '--game', GAME, '--play', '1', 'c:stick wobble'], /wobble/],
    ['an unknown field', ['table', '--rows', 'concpt'], /no field concpt.*concept/],
    ['an unknown field in a question', ['plays', 'list', '--where', "covrage = 'x'"], /covrage.*coverage/],
    ['a question that breaks off', ['plays', 'list', '--where', 'gain >'], /./],
    ['an unknown field to list', ['plays', 'list', '--fields', 'gian'], /no field gian/],
    ['an unknown metric', ['table', '--rows', 'concept', '--metrics', 'calls,yard'], /no metric yard/],
    ['a map that is no JSON', ['plays', 'import', 'week 1.csv', '--map', '{x'], /map cannot be read/],
    ['a map with a slip', ['plays', 'import', 'week 1.csv', '--map', '{"cols":{"Dn":"down"}}'], /cols/],
    [
      'a map to nowhere',
      ['plays', 'import', 'week 1.csv', '--game', GAME, '--map', '{"columns":{"Dn":"downs"}}'],
      /no field downs/,
    ],
    ['a sheet without a game', ['plays', 'import', 'week 1.csv'], /no game was named/],
    ['a sheet that is not there', ['plays', 'import', 'week 9.csv', '--game', GAME], /no sheet week 9/],
    ['an angle nobody has', ['film', 'add', 'x.mp4', '--game', GAME, '--angle', 'roof'], /angle/],
    ['an unknown command', ['frobnicate'], /unknown command/],
    ['an unknown option', ['check', '--loud'], /unknown option/],
    ['a library that is there already', ['new', '--team', 'Foxes'], /already a file/],
  ])('%s', async (_, args, words) => {
    expectRefused(await here(...args), words);
  });

  it('a library that is not there, or none at all', async () => {
    expectRefused(await tapebook(['check', '--library', at('none.tapebook')]), /no library at .*none/);
    expectRefused(await tapebookHere(['check', '--json']), /No library was named/);
    expectRefused(await tapebookHere(['check', '--library', at('week 1.csv')]), /not a Tapebook library/);
    expect(readdirSync(folder).filter((n) => /none|csv-/.test(n))).toEqual([]);
  });

  it('to change a library that another process holds; looking is allowed', async () => {
    const held = openLibrary(library);
    try {
      const log = ['log', '--game', GAME, '--play', '1', 'g3'];
      expectRefused(await on(...log), /already open in another Tapebook/);
      for (const args of [log, ['plays', 'import', 'week 1.csv', '--game', GAME], ['undo']])
        expectRefused(await here(...args), /already open in another Tapebook/);
      expect(expectDone<object[]>(await on('plays', 'list', '--where', 'playNumber = 1'))).not.toEqual([]);
      expect(expectDone(await here('check'))).toMatchObject({ ok: true });
      expectDone(await here('backup', '--to', at('held.tapebook')));
      expectDone(await here('cutup', 'export', 'First downs', '--to', at('held.mp4')));
    } finally {
      held.close();
    }
  });
});
