import { type Browser, chromium, expect, type Page, test } from '@playwright/test';
import { jumpList, walkFilm } from './film-walk.ts';
import { numberedStation } from './numbered-station.ts';
import { CHROMIUM_ARGUMENTS, findChromium, startService } from './stations.ts';

const executablePath = findChromium();
/** Frames of each film, jumps and steps each way: a thin cut; `npm run bench` walks the whole. */
/** Constant, 29.97, 59.94 and variable rates, and a key frame every 250; the bench walks every kind. */
const KINDS = 5;
const FRAMES = 330;
const JUMPS = 16;
const STEPS = 12;

let station: Awaited<ReturnType<typeof numberedStation>>;
let service: Awaited<ReturnType<typeof startService>>;
let browser: Browser;
let page: Page;
const faults: string[] = [];

test.describe('the player in Chromium', () => {
  test.describe.configure({ mode: 'serial' });
  test.skip(executablePath === null, 'There is no Chromium on this machine.');

  test.beforeAll(async () => {
    if (executablePath === null) return;
    station = await numberedStation(FRAMES, KINDS);
    service = await startService(station.library);
    browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGUMENTS });
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.on('pageerror', (error) => faults.push(error.message));
    await page.goto(
      new URL('/#/log', service.address).href.replace('/#', `/${new URL(service.address).search}#`),
    );
  });

  test.afterAll(async () => {
    await browser?.close();
    await service?.stop();
    station?.remove();
  });

  test('shows exactly the frame that is asked for, on film of five kinds', async () => {
    await expect(page.getByText(`Play 1 of ${station.kinds.length}`)).toBeVisible();
    await page.keyboard.press('Escape');
    for (const [index, kind] of station.kinds.entries()) {
      if (index > 0) await page.keyboard.press('PageDown');
      await expect(page.getByText(`Play ${index + 1} of ${station.kinds.length}`)).toBeVisible();
      await expect(page.getByTestId('film-frame')).not.toHaveText('frame –');
      await page.waitForTimeout(400);
      const frames = await page.evaluate(
        () => Number(document.querySelector<HTMLInputElement>('input[type="range"]')!.max) + 1,
      );
      const report = await page.evaluate(walkFilm, {
        jumps: jumpList(frames, JUMPS),
        steps: STEPS,
        first: kind.first,
        turned: kind.turned,
      });
      expect({ kind: kind.what, wrong: report.wrong }).toEqual({ kind: kind.what, wrong: [] });
      // the first picture may still be the video element's
      expect(report.fromCache, kind.what).toBeGreaterThanOrEqual(report.asked - 1);
      expect(report.shape, kind.what).toBeCloseTo(kind.shape, 1);
    }
    expect(faults).toEqual([]);
  });
});
