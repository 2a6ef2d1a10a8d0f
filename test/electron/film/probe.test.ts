import { copyFileSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { probeFilm, probeFilms } from '../../../electron/film/probe.ts';
import { makeStill } from '../../../electron/film/stills.ts';
import { findFilmTools } from '../../../electron/film/tools.ts';
import { copyFilm, makeNumberedFilm, readNumbers, tools } from '../../fixtures/numbered-film.ts';

const folder = mkdtempSync(join(tmpdir(), 'probe-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  await makeNumberedFilm({ path: at('film.mp4'), frames: 90, sound: true });
});

async function probe(path: string) {
  const result = await probeFilm(path, { tools });
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

describe('the identity of a film', () => {
  it('stays when the file moves or is copied, and is of its content alone', async () => {
    const { contentId } = await probe(at('film.mp4'));
    copyFileSync(at('film.mp4'), at('copy of film.mov'));
    expect((await probe(at('copy of film.mov'))).contentId).toBe(contentId);
    renameSync(at('copy of film.mov'), at('moved.mp4'));
    expect((await probe(at('moved.mp4'))).contentId).toBe(contentId);
    expect(contentId).toMatch(/^f1-[0-9a-f]{40}$/);
  });

  it('differs between two films of one length, and where a single byte of a short film differs', async () => {
    const first = await probe(await makeNumberedFilm({ path: at('a.mp4'), frames: 30, firstNumber: 1000 }));
    const second = await probe(await makeNumberedFilm({ path: at('b.mp4'), frames: 30, firstNumber: 2000 }));
    expect(second.contentId).not.toBe(first.contentId);
  });
});

describe('bringing in many files', () => {
  it('gives each file as soon as it is known, and a bad one stops only itself', async () => {
    const paths = [at('film.mp4'), at('gone.mp4'), at('notes.mp4'), at('film.mp4')];
    writeFileSync(at('notes.mp4'), 'not film');
    const seen: Record<number, string> = {};
    for await (const { index, path, result } of probeFilms(paths, { tools })) {
      expect(path).toBe(paths[index]);
      seen[index] = result.ok ? `${result.value.frames} frames` : result.problem.code;
    }
    expect(seen).toEqual({ 0: '90 frames', 1: 'film-missing', 2: 'film-unreadable', 3: '90 frames' });
  });

  it('reads 120 clips, each by itself', async () => {
    const paths: string[] = [];
    for (let clip = 0; clip < 120; clip++) {
      paths.push(at(`clip ${clip}.mp4`));
      copyFileSync(at('film.mp4'), paths[clip]!);
    }
    let count = 0;
    for await (const { result } of probeFilms(paths, { tools })) {
      expect(result.ok).toBe(true);
      count += 1;
    }
    expect(count).toBe(120);
  });

  it('stops at a cancel and leaves the rest alone', async () => {
    const cancel = new AbortController();
    const paths = Array.from({ length: 50 }, () => at('film.mp4'));
    let count = 0;
    for await (const _ of probeFilms(paths, { tools, signal: cancel.signal })) {
      if (++count === 5) cancel.abort();
    }
    expect(count).toBeLessThan(10);
  });
});

describe('a still', () => {
  it.each([
    ['the first frame', 0],
    ['a key frame', 30],
    ['the frame before a key frame', 59],
    ['the last frame', 89],
  ])('shows exactly %s', async (_, frame) => {
    const { table } = await probe(at('film.mp4'));
    const target = at(`stills/${frame}.jpg`);
    expect(await makeStill({ path: at('film.mp4'), table, frame, target, tools, height: 96 })).toEqual({
      ok: true,
      value: undefined,
    });
    expect(await readNumbers(target, { width: 160, height: 96 })).toEqual([frame]);
  });

  it('is exact where the picture starts later than the sound', async () => {
    const late = await copyFilm(at('film.mp4'), at('late.mp4'), ['-output_ts_offset', '0.75']);
    const { table } = await probe(late);
    const target = at('stills/late.jpg');
    await makeStill({ path: late, table, frame: 47, target, tools, height: 96 });
    expect(await readNumbers(target, { width: 160, height: 96 })).toEqual([47]);
  });

  it('of a frame or a film that is not there is a problem, and nothing is written', async () => {
    const { table } = await probe(at('film.mp4'));
    const target = at('stills/none.jpg');
    const beyond = await makeStill({ path: at('film.mp4'), table, frame: 90, target, tools });
    const gone = await makeStill({ path: at('gone.mp4'), table, frame: 3, target, tools });
    for (const result of [beyond, gone])
      expect(result.ok ? 'made' : result.problem.code).toBe('still-failed');
    await expect(readNumbers(target, { width: 160, height: 96 })).rejects.toThrow();
  });
});

describe('the film programs', () => {
  it('are found, with their version', async () => {
    const found = await findFilmTools();
    expect(found.ok && found.value.ffmpeg.version).toMatch(/\S/);
  });

  it('that the user names are not passed over in silence when they do not run', async () => {
    const found = await findFilmTools({ ffmpeg: at('notes.mp4') });
    expect(found.ok ? 'found' : found.problem.code).toBe('film-tool-missing');
    expect(found.ok ? '' : found.problem.message).toContain('notes.mp4');
  });

  it('come with the packages where the machine has none', async () => {
    const { PATH, TAPEBOOK_FFMPEG } = process.env;
    process.env.PATH = folder;
    delete process.env.TAPEBOOK_FFMPEG;
    try {
      const found = await findFilmTools();
      expect(found.ok && found.value.ffmpeg.from).toBe('bundled');
      expect(found.ok && found.value.ffprobe).toBeNull();
    } finally {
      process.env.PATH = PATH;
      if (TAPEBOOK_FFMPEG !== undefined) process.env.TAPEBOOK_FFMPEG = TAPEBOOK_FFMPEG;
    }
  });
});
