import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBuilt } from './lib/build.mjs';
import { ensureInstalled, ROOT } from './lib/install.mjs';
import { findBrowser, readLines } from './lib/windows.mjs';

/** Takes the README's pictures of the real rooms, on the sample library: `npm run pictures`. */
const say = (line) => process.stdout.write(`${line}\n`);
ensureInstalled(say);
await ensureBuilt(['service', 'renderer'], say);
const browserPath = findBrowser();
if (!browserPath) throw new Error('Pictures need a browser of the Chromium family on this machine.');

const { chromium } = await import('@playwright/test');
const { makeSampleLibrary } = await import('../dist/service/sample.mjs');
const folder = mkdtempSync(join(tmpdir(), 'tapebook-pictures-'));
const library = join(folder, 'herons.tapebook');
await makeSampleLibrary(library, join(ROOT, 'sample-clips'));
const service = spawn(
  process.execPath,
  [join(ROOT, 'dist/service/main.mjs'), '--library', library, '--renderer', join(ROOT, 'dist/renderer')],
  {
    stdio: ['pipe', 'pipe', 'inherit'],
  },
);
const { address } = await new Promise((done) =>
  readLines(service.stdout, (line) => line.startsWith('{') && done(JSON.parse(line))),
);
const root = typeof process.getuid === 'function' && process.getuid() === 0;
const browser = await chromium.launch({ executablePath: browserPath, args: root ? ['--no-sandbox'] : [] });
const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
const to = join(ROOT, 'docs', 'pictures');
mkdirSync(to, { recursive: true });

const room = async (name) => {
  await page.goto(new URL(`/#/${name}`, address).href);
  await page.waitForTimeout(2500);
};
const shoot = async (name) => {
  // the picture shows where film lies on this machine; the reader's will lie elsewhere
  await page.evaluate(
    (here) => {
      const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = words.nextNode(); node; node = words.nextNode()) {
        if (node.nodeValue?.includes(here)) node.nodeValue = node.nodeValue.replaceAll(here, '/film');
      }
    },
    ROOT.replace(/[\\/]$/, ''),
  );
  await page.screenshot({ path: join(to, `${name}.png`) });
  say(`docs/pictures/${name}.png`);
};

await page.goto(address);
await room('log');
await page.keyboard.press('Escape');
// play 20 of the sample: four verticals against Cover 2
for (let i = 0; i < 15; i += 1) await page.keyboard.press('q');
await page.waitForTimeout(800);
for (let i = 0; i < 3; i += 1) {
  await page.keyboard.press('x');
  await page.waitForTimeout(400);
}
await page.waitForTimeout(600);
await page.keyboard.press('/');
await page.keyboard.type('c:verts c2 base pass c g21 7@');
await page.waitForTimeout(800);
await shoot('log');
await page.keyboard.press('Escape');

await room('ask');
await page.keyboard.press('/');
await page.keyboard.type("possession = 'Herons' AND playKind IN ('pass', 'run')");
await page.keyboard.press('Control+Enter');
await page.waitForTimeout(1500);
await page.keyboard.press('Enter');
await page.waitForTimeout(3500);
await shoot('ask');

await room('film');
await page.waitForTimeout(12_000);
await shoot('film');
await room('teach');
await page.waitForTimeout(1500);
await shoot('teach');
await room('playbook');
await shoot('playbook');

await browser.close();
service.kill('SIGTERM');
rmSync(folder, { recursive: true, force: true });
