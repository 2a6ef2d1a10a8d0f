import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

export const ROOT = process.cwd();

/** A folder of the test's own, with a copy of the sample library in it. */
export async function sampleStation(): Promise<{ folder: string; library: string; remove(): void }> {
  const folder = mkdtempSync(join(tmpdir(), 'tapebook-window-'));
  const library = join(folder, 'herons.tapebook');
  const { makeSampleLibrary } = (await import(pathToFileURL(join(ROOT, 'dist/service/sample.mjs')).href)) as {
    makeSampleLibrary(path: string, film: string): Promise<void>;
  };
  await makeSampleLibrary(library, join(ROOT, 'sample-clips'));
  return { folder, library, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

export function serviceArguments(library: string): string[] {
  return [
    join(ROOT, 'dist/service/main.mjs'),
    '--library',
    library,
    '--renderer',
    join(ROOT, 'dist/renderer'),
  ];
}

/** Starts the service on a library; it stops with the test. */
export async function startService(
  library: string,
): Promise<{ address: string; child: ChildProcess; stop(): Promise<void> }> {
  const child = spawn(process.execPath, serviceArguments(library), { stdio: ['pipe', 'pipe', 'inherit'] });
  const address = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.stdout?.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      const line = said.split('\n').find((l) => l.startsWith('{') && l.endsWith('}'));
      if (line) resolve((JSON.parse(line) as { address: string }).address);
    });
    child.once('exit', (code) => reject(new Error(`The service stopped with code ${code}.`)));
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    address,
    child,
    stop: () => {
      child.kill('SIGTERM');
      return ended;
    },
  };
}

export function findChromium(): string | null {
  for (const name of ['chromium', 'chromium-browser', 'google-chrome']) {
    const found = spawnSync('which', [name], { encoding: 'utf8' }).stdout.trim();
    if (found) return found;
  }
  return null;
}

/** Under root a browser runs only without its sandbox; in tests that is accepted, in the product never. */
export const CHROMIUM_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--autoplay-policy=no-user-gesture-required',
];

/** The Electron runtime for tests, or why there is none. */
export function findElectron(): { path: string } | { missing: string } {
  const named = process.env.ELECTRON_OVERRIDE_DIST_PATH;
  const provider = join(ROOT, '../shared/electron-runtime/provide');
  const folder =
    named ??
    (existsSync(provider) ? spawnSync(provider, { encoding: 'utf8', timeout: 300_000 }).stdout.trim() : '');
  const path = folder ? join(folder, 'electron') : join(ROOT, 'node_modules/electron/dist/electron');
  return existsSync(path)
    ? { path }
    : { missing: 'There is no Electron runtime on this machine and none could be fetched.' };
}

/** A screen to open windows on: the one that is there, else a virtual one. */
export async function screen(): Promise<{ display: string; stop(): void } | { missing: string }> {
  if (process.env.DISPLAY) return { display: process.env.DISPLAY, stop: () => {} };
  if (spawnSync('which', ['Xvfb']).status !== 0)
    return { missing: 'There is no screen and no Xvfb on this machine.' };
  const child = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1920x1080x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const number = await new Promise<string>((resolve, reject) => {
    (child.stdio[3] as NodeJS.ReadableStream).once('data', (bytes: Buffer) =>
      resolve(bytes.toString().trim()),
    );
    child.once('exit', () => reject(new Error('Xvfb did not start.')));
  });
  return { display: `:${number}`, stop: () => child.kill('SIGTERM') };
}
