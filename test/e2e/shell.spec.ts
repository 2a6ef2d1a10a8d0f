import type { ChildProcess } from 'node:child_process';
import { expect, test } from '@playwright/test';
import { connectPage, type DevtoolsPage } from './devtools-page.ts';
import { endShell, startShell } from './shell-window.ts';
import { findElectron, sampleStation, screen } from './stations.ts';

const runtime = findElectron();
let display: Awaited<ReturnType<typeof screen>> | null = null;
let station: Awaited<ReturnType<typeof sampleStation>> | null = null;
let shell: ChildProcess | null = null;
let port = '';
let page: DevtoolsPage;

test.describe('the desktop shell on a real runtime', () => {
  test.describe.configure({ mode: 'serial' });
  test.skip('missing' in runtime, 'missing' in runtime ? runtime.missing : '');

  test.beforeAll(async () => {
    if ('missing' in runtime) return;
    display = await screen();
    if ('missing' in display) return;
    station = await sampleStation();
    ({ child: shell, port } = await startShell(runtime.path, station.library, display.display));
    page = await connectPage(port);
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

  test('opens one locked-down window on the service', async () => {
    await page.shows('all saved');
    const seen = await page.evaluate(() => ({
      title: document.title,
      node: typeof (globalThis as { process?: unknown }).process,
      require: typeof (globalThis as { require?: unknown }).require,
      module: typeof (globalThis as { module?: unknown }).module,
      bridge: Object.keys((globalThis as { tapebookDesktop?: object }).tapebookDesktop ?? {}).sort(),
      address: location.href,
    }));
    expect(seen).toMatchObject({ node: 'undefined', require: 'undefined', module: 'undefined' });
    expect(seen.title).toContain('Tapebook');
    expect(seen.bridge).toEqual([
      'chooseFiles',
      'chooseFolder',
      'onCommand',
      'pathForFile',
      'platform',
      'reveal',
      'saveAs',
      'setMenus',
    ]);
    expect(seen.address).not.toContain('secret');
  });

  test('logs a play by keyboard, asks for it, and plays it', async () => {
    await page.press('Control+2');
    await page.shows('Play 35 of 64');
    await page.press('Escape');
    await page.press('/');
    await page.type('us q3 6:00 -35 m kickoff returned k62 ret16');
    await page.press('Enter');
    await page.shows('Play 36 of 64');
    await page.type('12 ace c:inside-zone over sky base run ru g2 b32');
    await page.press('Enter');
    await page.shows('Play 37 of 64');
    await page.press('Escape');
    await page.press('Control+3');
    await page.shows('The same as text');
    await page.press('/');
    await page.type("playNumber = 36 AND coverage = 'Cover 3 sky'");
    await page.press('Control+Enter');
    await page.shows('1 play');
    await page.press('Enter');
    await expect
      .poll(() => page.evaluate(() => document.querySelector('video')?.currentTime ?? 0), { timeout: 20_000 })
      .toBeGreaterThan(0.3);
  });

  test('goes nowhere else and opens nothing else', async () => {
    const before = await page.evaluate(() => location.href);
    await page.evaluate(() => {
      location.href = 'http://127.0.0.1:9/elsewhere';
    });
    await new Promise((done) => setTimeout(done, 400));
    expect(await page.evaluate(() => location.href)).toBe(before);
    expect(await page.evaluate(() => window.open('http://127.0.0.1:9/') === null)).toBe(true);
    const pages = (await (await fetch(`http://127.0.0.1:${port}/json`)).json()) as { type: string }[];
    expect(pages.filter((p) => p.type === 'page')).toHaveLength(1);
  });

  test('runs no script that did not come from the service, and asks no other address', async () => {
    const seen = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'globalThis.ranInline = true';
      document.body.append(script);
      await new Promise((done) => setTimeout(done, 50));
      const reached = await fetch('http://127.0.0.1:9/').then(
        () => 'reached',
        () => 'refused',
      );
      return {
        ran: (globalThis as { ranInline?: boolean }).ranInline === true,
        reached,
        notification: await Notification.requestPermission(),
      };
    });
    expect(seen).toEqual({ ran: false, reached: 'refused', notification: 'denied' });
  });
});
