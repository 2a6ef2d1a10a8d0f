import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { connectPage } from '../e2e/devtools-page.ts';
import { jumpList, type WalkOrder, type WalkReport, walkFilm } from '../e2e/film-walk.ts';
import { libraryOf, numberedStation } from '../e2e/numbered-station.ts';
import { endShell, startShell } from '../e2e/shell-window.ts';
import { CHROMIUM_ARGUMENTS, findChromium, findElectron, screen, startService } from '../e2e/stations.ts';
import { makeNumberedFilm } from '../fixtures/numbered-film.ts';
import { record } from './record.ts';

/**
 * The player in a real window: whether the frame asked for is the frame shown (1,000 jumps and 1,000 single steps each way
 * on film of each kind, in Chromium and in the Electron runtime), how late reverse play is, what a single step costs, and
 * how many bytes of decoded frames are open. TAPEBOOK_BENCH_WALK=100 walks less.
 */
const WALK = Number(process.env.TAPEBOOK_BENCH_WALK ?? 1000);
const median = (times: readonly number[]) => [...times].sort((a, b) => a - b)[times.length >> 1] ?? 0;

/** A window on some library; `walk` runs in its page. */
interface Window {
  next(): Promise<void>;
  walk(order: WalkOrder): Promise<WalkReport>;
  frames(): Promise<number>;
}

/** Frames of the film in the window, once it is there. */
async function framesShown(): Promise<number> {
  for (let wait = 0; wait < 200; wait++) {
    const label = document.querySelector<HTMLElement>('[data-testid="film-frame"]');
    if (label && label.dataset.frame !== '') break;
    await new Promise((next) => setTimeout(next, 50));
  }
  return Number(document.querySelector<HTMLInputElement>('input[type="range"]')!.max) + 1;
}

async function walkKinds(
  where: string,
  window: Window,
  station: Awaited<ReturnType<typeof numberedStation>>,
) {
  for (const [index, kind] of station.kinds.entries()) {
    if (index > 0) await window.next();
    await new Promise((done) => setTimeout(done, 800));
    const frames = await window.frames();
    const { first, turned } = kind;
    const report = await window.walk({ jumps: jumpList(frames, WALK), steps: WALK, first, turned });
    for (const words of report.wrong) console.log(`${kind.what}: ${words}`);
    record(`wrong frames of ${report.asked} in ${where}, ${kind.what}`, report.wrongCount, 0, 'frames');
  }
}

async function openChromium(library: string, executablePath: string) {
  const service = await startService(library);
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGUMENTS });
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  await page.addInitScript(watchPictures);
  await page.goto(service.address);
  await page.keyboard.press('Control+2');
  await page.getByTestId('film-frame').waitFor();
  await page.keyboard.press('Escape');
  return {
    page,
    window: {
      next: () => page.keyboard.press('PageDown'),
      walk: (order) => page.evaluate(walkFilm, order),
      frames: () => page.evaluate(framesShown),
    } satisfies Window,
    close: async () => {
      await browser.close();
      await service.stop();
    },
  };
}

/** Counts, from outside of the player, the bytes of all decoded pictures that are open. */
function watchPictures(): void {
  // the bundler of this file names functions by a helper that the page does not have
  (globalThis as { __name?: unknown }).__name = (named: unknown) => named;
  if (!('VideoDecoder' in globalThis)) return;
  const open = new Map<VideoFrame, number>();
  const count = { now: 0, most: 0 };
  (globalThis as { pictureBytes?: typeof count }).pictureBytes = count;
  const close = VideoFrame.prototype.close;
  VideoFrame.prototype.close = function (this: VideoFrame) {
    count.now -= open.get(this) ?? 0;
    open.delete(this);
    close.call(this);
  };
  globalThis.VideoDecoder = class extends VideoDecoder {
    constructor(init: VideoDecoderInit) {
      super({
        ...init,
        output: (frame) => {
          const bytes = frame.format ? frame.allocationSize() : frame.codedWidth * frame.codedHeight * 1.5;
          open.set(frame, bytes);
          count.now += bytes;
          count.most = Math.max(count.most, count.now);
          init.output(frame);
        },
      });
    }
  };
}

interface ReverseReport {
  readonly late: number;
  readonly drawn: number;
  readonly mostBytes: number;
}

/** Plays backwards from a frame for so many frames of 1/30 s; late is what was not drawn before its time was over. */
async function reverse(order: { from: number; frames: number }): Promise<ReverseReport> {
  const slider = document.querySelector<HTMLInputElement>('input[type="range"]')!;
  const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!;
  setValue.call(slider, String(order.from));
  slider.dispatchEvent(new Event('input', { bubbles: true }));
  await new Promise((next) => setTimeout(next, 2500));
  const canvas = document.querySelector<HTMLCanvasElement>('.film-element[data-place="lead"] canvas')!;
  const drawnAt = new Map<number, number>();
  const watch = new MutationObserver(() => {
    const frame = Number(canvas.dataset.frame);
    if (!drawnAt.has(frame)) drawnAt.set(frame, performance.now());
  });
  watch.observe(canvas, { attributes: true, attributeFilter: ['data-frame'] });
  const press = () => {
    for (const type of ['keydown', 'keyup'])
      document.body.dispatchEvent(
        new KeyboardEvent(type, { code: 'KeyS', key: 'S', shiftKey: true, bubbles: true, cancelable: true }),
      );
  };
  press();
  await new Promise((next) => setTimeout(next, (order.frames * 1000) / 30 + 800));
  press();
  watch.disconnect();
  const begun = drawnAt.get(order.from - 1) ?? Number.POSITIVE_INFINITY;
  let late = 0;
  for (let n = 1; n <= order.frames; n++) {
    const at = drawnAt.get(order.from - n) ?? Number.POSITIVE_INFINITY;
    if (at > begun + (n * 1000) / 30) late++;
  }
  const bytes = (globalThis as { pictureBytes?: { most: number } }).pictureBytes;
  return { late, drawn: drawnAt.size, mostBytes: bytes?.most ?? Number.NaN };
}

async function speed(executablePath: string): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'tapebook-player-'));
  const film = (name: string, width: number, height: number, gop: number) =>
    makeNumberedFilm({
      path: join(folder, name),
      frames: 420,
      width,
      height,
      // grain, so that a picture costs what one of real film does
      filter: 'noise=alls=9:allf=t',
      video: [
        '-c:v',
        'libx264',
        '-preset',
        'veryfast',
        '-crf',
        '26',
        '-bf',
        '2',
        '-g',
        String(gop),
        '-sc_threshold',
        '0',
      ],
    });
  const films: [string, string][] = [
    ['720p30, a key frame every 30', await film('play 1.mp4', 1280, 720, 30)],
    ['720p30, a key frame every 250', await film('play 2.mp4', 1280, 720, 250)],
    ['1080p30, a key frame every 60', await film('play 3.mp4', 1920, 1080, 60)],
    ['1080p30, a key frame every 250', await film('play 4.mp4', 1920, 1080, 250)],
  ];
  const library = libraryOf(
    folder,
    films.map(([, path]) => path),
  );
  const { page, window, close } = await openChromium(library, executablePath);
  for (const [index, [what]] of films.entries()) {
    if (index > 0) await window.next();
    await new Promise((done) => setTimeout(done, 1200));
    await window.frames();
    const steps = await window.walk({ jumps: [], steps: 60, first: 0, turned: false });
    record(`a single step in the prefetched range, ${what}`, median(steps.stepMs), 35, 'ms');
    record(`from the key to the painted picture, ${what}`, median(steps.paintMs), 60, 'ms');
    const run = await reverseOn(page);
    record(`late frames of 300 played backwards, ${what}`, (run.late / 300) * 100, 1, '%');
    record(`most bytes of decoded pictures open, ${what}`, run.mostBytes / 1e6, 600, 'MB');
  }
  await close();
  rmSync(folder, { recursive: true, force: true });
}

const reverseOn = (page: Page) => page.evaluate(reverse, { from: 400, frames: 300 });

async function exactInElectron(electron: string): Promise<void> {
  const display = await screen();
  if ('missing' in display) {
    console.log(display.missing);
    return;
  }
  const station = await numberedStation(WALK + 300);
  const { child, port } = await startShell(electron, station.library, display.display);
  const page = await connectPage(port);
  await page.shows('all saved');
  await page.evaluate(watchPictures);
  await page.press('Control+2');
  await page.shows('Play 1 of');
  await page.press('Escape');
  await walkKinds(
    'the Electron runtime',
    {
      next: () => page.press('e'),
      walk: (order) => page.evaluate(walkFilm, order),
      frames: () => page.evaluate(framesShown),
    },
    station,
  );
  page.close();
  await endShell(child);
  station.remove();
  display.stop();
}

async function exactInChromium(executablePath: string): Promise<void> {
  const station = await numberedStation(WALK + 300);
  const { window, close } = await openChromium(station.library, executablePath);
  await walkKinds('Chromium', window, station);
  await close();
  station.remove();
}

async function measure(): Promise<void> {
  const executablePath = findChromium();
  if (executablePath === null) console.log('There is no Chromium on this machine.');
  else {
    await speed(executablePath);
    await exactInChromium(executablePath);
  }
  const runtime = findElectron();
  if ('missing' in runtime) console.log(runtime.missing);
  else await exactInElectron(runtime.path);
}

await measure();
