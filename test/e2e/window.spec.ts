import AxeBuilder from '@axe-core/playwright';
import { type Browser, chromium, expect, type Page, test } from '@playwright/test';
import { logAskAndPlay } from './flow.ts';
import { CHROMIUM_ARGUMENTS, findChromium, sampleStation, startService } from './stations.ts';

const executablePath = findChromium();
let station: Awaited<ReturnType<typeof sampleStation>>;
let service: Awaited<ReturnType<typeof startService>>;
let browser: Browser;

const ROOMS = ['film', 'log', 'ask', 'teach', 'playbook'] as const;

test.describe('the window in Chromium', () => {
  test.skip(executablePath === null, 'There is no Chromium on this machine.');

  test.beforeAll(async () => {
    if (executablePath === null) return;
    station = await sampleStation();
    service = await startService(station.library);
    browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGUMENTS });
  });

  test.afterAll(async () => {
    await browser?.close();
    await service?.stop();
    station?.remove();
  });

  async function open(size = { width: 1280, height: 800 }): Promise<{ page: Page; faults: string[] }> {
    const context = await browser.newContext({ viewport: size });
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text());
    });
    await page.goto(service.address);
    await expect(page.getByTestId('saved-state')).toHaveAttribute('data-state', 'saved');
    return { page, faults };
  }

  test('logs a play by keyboard, asks for it, and plays it', async () => {
    const { page, faults } = await open();
    await logAskAndPlay(page);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  for (const room of ROOMS) {
    test(`axe finds nothing in the ${room} room`, async () => {
      const { page, faults } = await open({ width: 1280, height: 800 });
      await page.goto(new URL(`/#/${room}`, service.address).href);
      await page.waitForLoadState('networkidle').catch(() => {});
      await page.waitForTimeout(500);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(
        violations.map(
          (v) =>
            `${v.id}: ${v.nodes
              .map((n) => n.target.join(' '))
              .slice(0, 3)
              .join(' | ')}`,
        ),
      ).toEqual([]);
      expect(faults).toEqual([]);
      await page.context().close();
    });
  }

  test('nothing runs out of the window at either size', async () => {
    for (const size of [
      { width: 1280, height: 800 },
      { width: 1920, height: 1080 },
    ]) {
      const { page } = await open(size);
      for (const room of ROOMS) {
        await page.goto(new URL(`/#/${room}`, service.address).href);
        await page.waitForTimeout(400);
        const over = await page.evaluate(() => {
          const root = document.documentElement;
          return { across: root.scrollWidth - root.clientWidth, down: root.scrollHeight - root.clientHeight };
        });
        expect({ room, ...over }).toEqual({ room, across: 0, down: 0 });
      }
      await page.context().close();
    }
  });

  test('without the secret the window does not open', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    const answer = await page.goto(new URL('/', service.address).href);
    expect(answer?.status()).toBe(401);
    await context.close();
  });
});
