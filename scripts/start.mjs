import { spawn } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureInstalled, ROOT } from './lib/install.mjs';
import {
  electronRuntime,
  findBrowser,
  openAppWindow,
  readLines,
  tryElectronDownload,
} from './lib/windows.mjs';

const say = (line) => process.stdout.write(`${line}\n`);
const stop = (message) => {
  process.stderr.write(`${message}\n`);
  process.exit(2);
};

let options;
try {
  options = parseArgs({
    options: {
      library: { type: 'string' },
      port: { type: 'string' },
      'no-window': { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  }).values;
} catch (error) {
  stop(`${error.message} See npm start -- --help.`);
}
if (options.help) {
  say('npm start -- [--library <file>] [--no-window] [--port <number>]');
  say('Opens the station: on a library, or on a copy of the sample library.');
  process.exit(0);
}

/** Where the sample library's copy and the window's profile live; nothing of the staff's own. */
const home = process.env.TAPEBOOK_HOME ? resolve(process.env.TAPEBOOK_HOME) : join(homedir(), '.tapebook');

try {
  ensureInstalled(say);
  const { ensureBuilt } = await import('./lib/build.mjs');
  await ensureBuilt(['service', 'renderer', 'shell'], say);
} catch (error) {
  stop(error.message);
}

const library = options.library ? resolve(options.library) : await sampleLibrary();
const runtime = options['no-window'] ? null : (electronRuntime() ?? tryElectronDownload(home, say));
if (runtime) openShell(runtime);
else await openWithoutShell();

async function sampleLibrary() {
  const path = join(home, 'sample', 'herons.tapebook');
  if (!existsSync(path)) {
    say('Making a copy of the sample library ...');
    mkdirSync(dirname(path), { recursive: true });
    const { makeSampleLibrary } = await import('../dist/service/sample.mjs');
    await makeSampleLibrary(path, join(ROOT, 'sample-clips'));
  }
  return path;
}

function serviceArguments() {
  return [
    join(ROOT, 'dist/service/main.mjs'),
    '--library',
    library,
    '--renderer',
    join(ROOT, 'dist/renderer'),
    ...(options.port ? ['--port', options.port] : []),
  ];
}

function openShell(electron) {
  say(`Opening ${library} ...`);
  const sandbox = process.env.TAPEBOOK_TEST_NO_SANDBOX === '1' ? ['--no-sandbox'] : [];
  const child = spawn(electron, [...sandbox, join(ROOT, 'dist/shell/main.cjs')], {
    stdio: ['ignore', 'inherit', 'inherit'],
    env: {
      ...process.env,
      TAPEBOOK_NODE: process.execPath,
      TAPEBOOK_SERVICE: JSON.stringify(serviceArguments()),
    },
  });
  child.on('exit', (code) => process.exit(code ?? 0));
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
}

async function openWithoutShell() {
  const service = spawn(process.execPath, serviceArguments(), { stdio: ['pipe', 'pipe', 'inherit'] });
  service.on('exit', (code) => process.exit(code ?? 0));
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => service.kill('SIGTERM'));
  const { address } = await new Promise((done) =>
    readLines(service.stdout, (line) => line.startsWith('{') && done(JSON.parse(line))),
  );
  say(`The station is open on ${library}.`);
  if (options['no-window']) {
    say(`Its address: ${address}`);
    say('Stop it with Ctrl+C.');
    return;
  }
  const browser = findBrowser();
  const window = browser
    ? await openAppWindow(browser, address, join(home, 'window'))
    : { child: null, trouble: null };
  if (window.child) {
    say('Close the window to stop it.');
    window.child.on('exit', () => service.kill('SIGTERM'));
    return;
  }
  say(
    browser
      ? `${browser} did not open a window: ${window.trouble}.`
      : 'No Electron runtime and no browser of the Chromium family was found.',
  );
  say(`Open this address in a browser on this machine: ${address}`);
  say('Stop it with Ctrl+C.');
}
