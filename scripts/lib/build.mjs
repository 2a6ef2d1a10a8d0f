import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './install.mjs';

const DIST = join(ROOT, 'dist');

/** What each part of the program is built from. */
const PARTS = {
  service: {
    from: [
      'football',
      'db',
      'electron/film',
      'electron/export',
      'electron/service',
      'sample-clips/sample-game.ts',
    ],
    build: buildService,
  },
  shell: { from: ['electron/shell'], build: buildShell },
  renderer: {
    from: ['football', 'renderer', 'electron/service/views.ts', 'vite.config.ts'],
    build: buildRenderer,
  },
};

function* filesOf(path) {
  if (!existsSync(path)) return;
  const entries = readdirSync(path, { withFileTypes: true, recursive: true });
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.isFile()) yield join(entry.parentPath, entry.name);
  }
}

function hashOf(part) {
  const hash = createHash('sha256').update(readFileSync(join(ROOT, 'package-lock.json')));
  hash.update(readFileSync(join(ROOT, 'scripts/lib/build.mjs')));
  for (const from of PARTS[part].from) {
    const path = join(ROOT, from);
    const files = /\.tsx?$/.test(from) ? [path].filter(existsSync) : [...filesOf(path)].sort();
    for (const file of files) hash.update(file.slice(ROOT.length)).update(readFileSync(file));
  }
  return hash.digest('hex');
}

/** Builds the parts whose sources have changed since they were built. */
export async function ensureBuilt(parts, say) {
  for (const part of parts) {
    const stamp = join(DIST, part, '.built');
    const wanted = hashOf(part);
    if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) continue;
    say(`Building the ${part} ...`);
    const fresh = join(DIST, `${part}.${process.pid}`);
    try {
      mkdirSync(fresh, { recursive: true });
      await PARTS[part].build(fresh);
      writeFileSync(join(fresh, '.built'), wanted);
      putInPlace(fresh, join(DIST, part));
    } finally {
      rmSync(fresh, { recursive: true, force: true });
    }
  }
}

/** A part is there whole or not at all, also where two commands find it stale at once. */
function putInPlace(fresh, target) {
  const old = `${fresh}.old`;
  try {
    renameSync(target, old);
  } catch {
    // nothing was built before, or the other command has just taken it away
  }
  try {
    renameSync(fresh, target);
  } catch (error) {
    // the other command was first, with the same sources
    if (!existsSync(join(target, '.built'))) throw error;
  }
  rmSync(old, { recursive: true, force: true });
}

async function buildService(outdir) {
  const { build } = await import('esbuild');
  await build({
    entryPoints: {
      main: join(ROOT, 'electron/service/main.ts'),
      cli: join(ROOT, 'electron/service/cli/index.ts'),
      sample: join(ROOT, 'electron/service/sample/index.ts'),
      'packets-worker': join(ROOT, 'electron/film/packets-worker.mjs'),
      'split-worker': join(ROOT, 'electron/film/split/split-work.ts'),
    },
    outdir,
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    outExtension: { '.js': '.mjs' },
    sourcemap: true,
    logLevel: 'warning',
  });
}

async function buildShell(outdir) {
  const { build } = await import('esbuild');
  await build({
    entryPoints: {
      main: join(ROOT, 'electron/shell/main.ts'),
      preload: join(ROOT, 'electron/shell/preload.ts'),
    },
    outdir,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node18',
    external: ['electron'],
    outExtension: { '.js': '.cjs' },
    logLevel: 'warning',
  });
}

async function buildRenderer(outDir) {
  const { build } = await import('vite');
  await build({
    configFile: join(ROOT, 'vite.config.ts'),
    logLevel: 'warn',
    build: { outDir, emptyOutDir: false },
  });
}
