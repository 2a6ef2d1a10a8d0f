import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { chromium, expect, test } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, findChromium, ROOT, sampleStation } from './stations.ts';

const executablePath = findChromium();

test('a report’s folder opens from disk without a network, and a number plays exactly its plays', async () => {
  test.skip(executablePath === null, 'There is no Chromium on this machine.');
  const station = await sampleStation();
  const to = join(station.folder, 'mariners');
  const cli = [join(ROOT, 'dist/service/cli.mjs'), 'report', 'calls', '--library', station.library];
  const narrow = spawnSync(process.execPath, [...cli, '--to', to, '--film', '--json'], { encoding: 'utf8' });
  expect(narrow.status, narrow.stderr).toBe(0);
  expect(narrow.stderr).toContain('Film of student athletes leaves the library');
  const clips = readdirSync(join(to, 'clips'));
  expect(JSON.parse(narrow.stdout)).toMatchObject({ format: 'folder', clips: clips.length });

  const browser = await chromium.launch({ executablePath: executablePath!, args: CHROMIUM_ARGUMENTS });
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, offline: true });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  const looked = async () => {
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([]);
  };
  await page.goto(pathToFileURL(join(to, 'index.html')).href);
  await expect(page.getByRole('heading', { level: 1 })).toContainText('call sheet draft');
  await looked();

  const number = page.locator('td a').filter({ hasText: '3' }).first();
  const said = await number.getAttribute('aria-label');
  const plays = Number(/film of (\d+)/.exec(said ?? '')?.[1]);
  await number.focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('ol li')).toHaveCount(plays);
  await expect
    .poll(() => page.locator('video').evaluate((v) => (v as HTMLVideoElement).readyState))
    .toBeGreaterThanOrEqual(2);
  await page.keyboard.press('PageDown');
  await expect(page.getByRole('status')).toContainText(`Play 2 of ${plays}`);
  await looked();
  expect(faults).toEqual([]);
  await browser.close();
  station.remove();
});
