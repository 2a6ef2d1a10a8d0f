import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lowerThird } from '../../../../electron/export/overlay/lower-third.ts';
import { drawingOverlay } from '../../../../electron/export/overlay/shapes.ts';
import { cardSegment } from '../../../../electron/export/overlay/title-card.ts';
import { sweepEdges } from '../../../../electron/export/reel/edge-store.ts';
import { estimateReel } from '../../../../electron/export/reel/estimate.ts';
import { prepareEdges } from '../../../../electron/export/reel/prepare-edges.ts';
import { renderReel } from '../../../../electron/export/reel.ts';
import type { ReelOptions, ReelSegment } from '../../../../electron/export/reel-types.ts';
import { probeFilm } from '../../../../electron/film/probe.ts';
import { makeNumberedFilm, range, readNumbers, tools } from '../../../fixtures/numbered-film.ts';

const folder = mkdtempSync(join(tmpdir(), 'dressed-reel-'));
const at = (name: string) => join(folder, name);
const BOX = { width: 160, height: 96 };
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let clip: (inFrame: number, outFrame: number, more?: Partial<ReelSegment>) => ReelSegment;

beforeAll(async () => {
  const video = ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '18', '-g', '30', '-bf', '2'];
  const path = await makeNumberedFilm({ path: at('film.mp4'), frames: 200, video });
  const film = await probeFilm(path, { tools });
  if (!film.ok) throw new Error(film.problem.message);
  const { table, contentId } = film.value;
  clip = (inFrame, outFrame, more = {}) => ({ path, table, inFrame, outFrame, filmId: contentId, ...more });
});

async function render(segments: readonly ReelSegment[], name: string, options: Partial<ReelOptions> = {}) {
  const made = await renderReel(segments, at(name), { tools, ...options });
  if (!made.ok) throw new Error(made.problem.message);
  return made.value;
}

describe('a dressed reel', () => {
  it('shows its card first, and copies the clips behind it', { timeout: 300_000 }, async () => {
    const film = clip(5, 95);
    const card = cardSegment({ title: 'Third and long', lines: ['4 plays'], seconds: 1 }, film.table);
    const report = await render([card, film], 'card.mp4');
    expect(report.segments.map(({ how }) => how)).toEqual(['encoded', 'edges']);
    expect(report.segments[0]).toMatchObject({ frames: 30, why: 'it is a title card' });
    const numbers = await readNumbers(report.path, BOX);
    expect(numbers.slice(30)).toEqual(range(5, 95));
  });

  it('stands still where that is asked for, and goes on with the next frame', {
    timeout: 300_000,
  }, async () => {
    const report = await render([clip(10, 20, { freezes: [{ frame: 12, seconds: 0.5 }] })], 'still.mp4');
    const held = Array.from({ length: 16 }, () => 12);
    expect(await readNumbers(report.path, BOX)).toEqual([10, 11, ...held, ...range(13, 20)]);
  });

  it('draws over the frames asked for and no others', { timeout: 300_000 }, async () => {
    const all = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ] as const;
    const shape = { kind: 'area', points: all, color: '#808080', cover: 1 } as const;
    const report = await render([clip(40, 60, { overlays: [drawingOverlay(45, 50, [shape])] })], 'drawn.mp4');
    expect(report.segments[0]).toMatchObject({ how: 'encoded', why: 'something is drawn over it' });
    const numbers = await readNumbers(report.path, BOX);
    expect(numbers).toEqual([...range(40, 45), ...Array.from({ length: 5 }, () => null), ...range(50, 60)]);
  });

  it('tells the tags along the lower edge, in light letters, and leaves the rest of the picture alone', () => {
    const size = { width: 640, height: 360 };
    const rgba = lowerThird({ title: 'Play 12', tags: [{ name: 'Concept', value: 'mesh' }] })(size);
    const row = (y: number) => rgba.subarray(y * size.width * 4, (y + 1) * size.width * 4);
    expect(row(200).every((value) => value === 0)).toBe(true);
    const band = Array.from({ length: 60 }, (_, y) => [...row(299 + y)]).flat();
    const white = band.filter(
      (_, byte) => byte % 4 === 0 && band[byte]! > 250 && band[byte + 3]! > 250,
    ).length;
    expect(white).toBeGreaterThan(200);
  });

  it('is foretold in size: nearly to the byte where packets are copied, to half or double else', {
    timeout: 300_000,
  }, async () => {
    const ways: { segments: ReelSegment[]; options: Partial<ReelOptions>; off: number }[] = [
      { segments: [clip(0, 200)], options: {}, off: 1.15 },
      { segments: [clip(7, 185), clip(30, 171)], options: {}, off: 2 },
    ];
    for (const { segments, options, off } of ways) {
      const estimate = await estimateReel(segments, { tools, ...options });
      const report = await render(segments, 'foretold.mp4', options);
      expect(estimate?.frames).toBe(report.frames);
      const ratio = report.bytes / estimate!.bytes;
      expect(Math.max(ratio, 1 / ratio)).toBeLessThan(off);
    }
  });
});

describe('edges made before a reel is asked for', () => {
  it('give the same bytes as those made with it, and stay within their bounds', {
    timeout: 300_000,
  }, async () => {
    const clips = [clip(7, 95), clip(50, 150)];
    const edgeFolder = at('edges');
    const prepared = await prepareEdges(clips, edgeFolder, tools);
    expect(prepared).toBeGreaterThan(1);
    const files = () =>
      readdirSync(edgeFolder, { recursive: true }).filter((name) => String(name).endsWith('.mp4'));
    const before = files();
    expect(before.length).toBe(prepared);
    const warm = await render(clips, 'warm.mp4', { edgeFolder });
    const cold = await render(clips, 'cold.mp4');
    expect(readFileSync(warm.path).equals(readFileSync(cold.path))).toBe(true);
    expect(files()).toEqual(before);

    const [first = ''] = before.map(String);
    const spoilt = join(edgeFolder, first);
    writeFileSync(spoilt, readFileSync(spoilt).fill(0, 600, 700));
    const mended = await render(clips, 'mended.mp4', { edgeFolder });
    expect(readFileSync(mended.path).equals(readFileSync(cold.path))).toBe(true);

    const bytes = files().reduce((sum, name) => sum + statSync(join(edgeFolder, String(name))).size, 0);
    await sweepEdges(edgeFolder, bytes - 1);
    expect(files().length).toBe(prepared - 1);
  });
});

describe('a work folder that a crash left', () => {
  it('is removed by the next export beside it; one in use stays', { timeout: 300_000 }, async () => {
    mkdirSync(at('out/.tapebook-export-0123456789ab-p999999999'), { recursive: true });
    mkdirSync(at(`out/.tapebook-export-0123456789ab-p${process.pid}`));
    await render([clip(0, 30)], 'out/reel.mp4');
    expect(readdirSync(at('out')).sort()).toEqual([
      `.tapebook-export-0123456789ab-p${process.pid}`,
      'reel.mp4',
    ]);
  });
});
