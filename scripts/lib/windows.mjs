import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { ROOT } from './install.mjs';

const PACKAGE = join(ROOT, 'node_modules', 'electron');
const A_DAY = 24 * 60 * 60 * 1000;

/** The Electron program, when its runtime is on this machine; null when it is not. */
export function electronRuntime() {
  const name =
    process.platform === 'win32'
      ? 'electron.exe'
      : process.platform === 'darwin'
        ? 'Electron.app/Contents/MacOS/Electron'
        : 'electron';
  const folder = process.env.ELECTRON_OVERRIDE_DIST_PATH ?? join(PACKAGE, 'dist');
  const path = join(folder, name);
  return existsSync(path) ? path : null;
}

/** Lets Electron fetch its own runtime, once a day at most and only as long as it takes to see whether it can. */
export function tryElectronDownload(stateFolder, say) {
  const installer = join(PACKAGE, 'install.js');
  const failed = join(stateFolder, 'electron-download-failed');
  if (!existsSync(installer)) return null;
  if (existsSync(failed) && Date.now() - statSync(failed).mtimeMs < A_DAY) return null;
  say('Fetching the Electron runtime ...');
  const result = spawnSync(process.execPath, [installer], { cwd: ROOT, stdio: 'ignore', timeout: 60_000 });
  const runtime = result.status === 0 ? electronRuntime() : null;
  if (runtime) return runtime;
  mkdirSync(stateFolder, { recursive: true });
  writeFileSync(failed, new Date().toISOString());
  say('It cannot be had right now; a browser window does the same job.');
  return null;
}

const BROWSERS = {
  linux: [
    'chromium',
    'chromium-browser',
    'google-chrome',
    'google-chrome-stable',
    'microsoft-edge',
    'brave-browser',
    'vivaldi',
  ],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    '/Applications/Brave Browser.app/Contents/MacOS/Brave Browser',
  ],
  win32: [
    'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
    'C:\\Program Files\\Microsoft\\Edge\\Application\\msedge.exe',
  ],
};

/** A browser of the Chromium family on this machine, or null. */
export function findBrowser() {
  for (const name of BROWSERS[process.platform] ?? BROWSERS.linux) {
    if (name.includes('/') || name.includes('\\')) {
      if (existsSync(name)) return name;
      continue;
    }
    for (const folder of (process.env.PATH ?? '').split(delimiter)) {
      if (folder && existsSync(join(folder, name))) return join(folder, name);
    }
  }
  return null;
}

/**
 * Opens an app window of a browser. Resolves with null once it stands, or with the reason why it does not.
 */
export function openAppWindow(browser, address, profileFolder) {
  mkdirSync(profileFolder, { recursive: true });
  const child = spawn(
    browser,
    [
      `--app=${address}`,
      `--user-data-dir=${profileFolder}`,
      '--no-first-run',
      '--no-default-browser-check',
      '--window-size=1440,900',
    ],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  let errors = '';
  child.stderr.on('data', (bytes) => {
    errors = (errors + bytes).slice(-4000);
  });
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve({ child, trouble: null }), 2500);
    const refused = (reason) => {
      clearTimeout(timer);
      resolve({ child: null, trouble: reason });
    };
    child.once('error', (error) => refused(error.message));
    child.once('exit', (code) => {
      if (code === 0)
        return refused('it handed the window to a browser that was open already, or closed at once');
      const root = typeof process.getuid === 'function' && process.getuid() === 0;
      const why =
        /no-sandbox|sandbox/i.test(errors) && root
          ? 'it does not run as the administrator (root)'
          : /display|DISPLAY|ozone/i.test(errors)
            ? 'there is no screen to open a window on'
            : `it stopped with code ${code}`;
      refused(why);
    });
  });
}

export function readLines(stream, onLine) {
  let rest = '';
  stream.setEncoding('utf8').on('data', (text) => {
    const lines = (rest + text).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) onLine(line);
  });
}
