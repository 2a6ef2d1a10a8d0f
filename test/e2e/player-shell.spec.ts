import type { ChildProcess } from 'node:child_process';
import { expect, test } from '@playwright/test';
import { connectPage, type DevtoolsPage } from './devtools-page.ts';
import { jumpList, walkFilm } from './film-walk.ts';
import { numberedStation } from './numbered-station.ts';
import { endShell, startShell } from './shell-window.ts';
import { findElectron, screen } from './stations.ts';

const runtime = findElectron();
/** A thin cut; `npm run bench` walks the whole. */
/** Constant, 29.97, 59.94 and variable rates, and a key frame every 250; the bench walks every kind. */
const KINDS = 5;
const FRAMES = 280;
const JUMPS = 6;
const STEPS = 5;

let display: Awaited<ReturnType<typeof screen>> | null = null;
let station: Awaited<ReturnType<typeof numberedStation>>;
let shell: ChildProcess | null = null;
let page: DevtoolsPage;

test.describe('the player in the desktop shell', () => {
  test.skip('missing' in runtime, 'missing' in runtime ? runtime.missing : '');

  test.beforeAll(async () => {
    if ('missing' in runtime) return;
    display = await screen();
    if ('missing' in display) return;
    station = await numberedStation(FRAMES, KINDS);
    const started = await startShell(runtime.path, station.library, display.display);
    shell = started.child;
    page = await connectPage(started.port);
  });

  test.beforeEach(() => {
    test.skip(
      display !== null && 'missing' in display,
      display && 'missing' in display ? display.missing : '',
    );
  });

  test.afterAll(async () => {
    page?.close();
    await endShell(shell);
    station?.remove();
    if (display && 'stop' in display) display.stop();
  });

  test('shows exactly the frame that is asked for, on film of five kinds', async () => {
    await page.shows('all saved');
    await page.press('Control+2');
    await page.shows(`Play 1 of ${station.kinds.length}`);
    await page.press('Escape');
    for (const [index, kind] of station.kinds.entries()) {
      if (index > 0) await page.press('e');
      await page.shows(`Play ${index + 1} of ${station.kinds.length}`);
      const frames = await page.evaluate(async () => {
        await new Promise((next) => setTimeout(next, 400));
        const first = document.querySelector<HTMLElement>('[data-testid="film-frame"]')!;
        for (let wait = 0; wait < 100 && first.dataset.frame === ''; wait++)
          await new Promise((next) => setTimeout(next, 50));
        return Number(document.querySelector<HTMLInputElement>('input[type="range"]')!.max) + 1;
      });
      const report = await page.evaluate(walkFilm, {
        jumps: jumpList(frames, JUMPS),
        steps: STEPS,
        first: kind.first,
        turned: kind.turned,
      });
      expect({ kind: kind.what, wrong: report.wrong }).toEqual({ kind: kind.what, wrong: [] });
      expect(report.fromCache, kind.what).toBeGreaterThanOrEqual(report.asked - 1);
    }
  });
});
