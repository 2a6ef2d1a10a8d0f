import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const STAMP = join(ROOT, 'node_modules', '.tapebook-installed');

function lockHash() {
  return createHash('sha256')
    .update(readFileSync(join(ROOT, 'package-lock.json')))
    .digest('hex');
}

/** Installs the packages when they are missing or other than the lock file says. Says so while it does it. */
export function ensureInstalled(say) {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new Error(
      `Tapebook needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer one and start again.`,
    );
  }
  const wanted = lockHash();
  const installed = () => existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted;
  if (installed()) return;
  const turn = takeTurn();
  try {
    if (!installed()) install(wanted, say);
  } finally {
    rmSync(turn, { force: true });
  }
}

/** Two commands that find packages missing at once must not install over each other: the second waits for the first. */
function takeTurn() {
  const place = createHash('sha256').update(ROOT).digest('hex').slice(0, 16);
  const turn = join(tmpdir(), `tapebook-install-${place}`);
  for (;;) {
    try {
      writeFileSync(turn, String(process.pid), { flag: 'wx' });
      return turn;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    if (!isRunning(Number(readFileSync(turn, 'utf8')))) rmSync(turn, { force: true });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 500);
  }
}

function isRunning(pid) {
  try {
    return pid > 0 && process.kill(pid, 0);
  } catch {
    return false;
  }
}

function install(wanted, say) {
  say(
    'Installing packages (a few minutes the first time; SQLite is compiled where no built one can be had) ...',
  );
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const result = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    throw new Error(
      'The packages could not be installed; the lines above say why. Check the network and start again.',
    );
  }
  writeFileSync(STAMP, wanted);
}
