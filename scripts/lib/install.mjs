import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
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
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted) return;
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
