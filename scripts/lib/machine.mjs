import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export function onPath(name) {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    if (folder && existsSync(join(folder, name))) return join(folder, name);
  }
  return null;
}

/** What the tests need beside npm packages, and the Debian package that brings each. */
const NEEDS = [
  {
    program: 'chromium',
    package: 'chromium',
    for: 'the window tests',
    also: ['chromium-browser', 'google-chrome'],
  },
  { program: 'ffmpeg', package: 'ffmpeg', for: 'making test film', also: [] },
  { program: 'ffprobe', package: 'ffmpeg', for: 'checking film against another reader', also: [] },
  { program: 'xvfb-run', package: 'xvfb', for: 'the desktop shell test', also: [] },
];

/**
 * Brings the programs that are missing, where this machine lets us (Debian, as root).
 * @returns the ones that are still missing, with what they are for
 */
export function ensureTestPrograms(say) {
  const missing = () => NEEDS.filter((n) => ![n.program, ...n.also].some(onPath));
  const absent = missing();
  if (absent.length === 0) return [];
  const root = typeof process.getuid === 'function' && process.getuid() === 0;
  if (root && onPath('apt-get')) {
    const packages = [
      ...new Set(absent.map((n) => n.package)),
      ...(absent.some((n) => n.package === 'xvfb') ? ['xauth'] : []),
    ];
    say(`Installing ${packages.join(', ')} ...`);
    const quiet = {
      stdio: ['ignore', 'ignore', 2],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], quiet);
  }
  return missing();
}
