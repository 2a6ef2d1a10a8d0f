import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, ROOT } from './lib/install.mjs';

/**
 * The whole test: brings what it needs, then types, lint, import rule, unused code, unit tests, build, and the windows.
 * `npm test -- unit` runs the parts named.
 */
const say = (line) => process.stdout.write(`${line}\n`);
const wanted = process.argv.slice(2);
const RESULTS = join(ROOT, 'test-results');
const notes = [];
const counts = { passed: 0, failed: 0, skipped: 0 };

ensureInstalled(say);
const { ensureTestPrograms, onPath } = await import('./lib/machine.mjs');
const { ensureBuilt } = await import('./lib/build.mjs');
for (const { program, for: purpose } of ensureTestPrograms(say)) {
  notes.push(
    `${program} is not on this machine and could not be installed: what needs it (${purpose}) was skipped.`,
  );
}
rmSync(RESULTS, { recursive: true, force: true });
mkdirSync(RESULTS, { recursive: true });

const bin = (name) => join(ROOT, 'node_modules', '.bin', name);

function run(title, command, args, env = {}) {
  say(`\n${title}`);
  const started = Date.now();
  const result = spawnSync(command, args, {
    cwd: ROOT,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ...env },
  });
  say(`${result.status === 0 ? 'ok' : 'FAILED'}: ${title}, ${((Date.now() - started) / 1000).toFixed(1)} s`);
  return result.status === 0;
}

/** A check that is one test: it holds or it does not. */
function check(title, command, args) {
  if (run(title, command, args)) counts.passed += 1;
  else counts.failed += 1;
}

function unit() {
  const file = join(RESULTS, 'unit.json');
  const fine = run('Unit and service tests', bin('vitest'), [
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
  ]);
  if (!existsSync(file)) {
    counts.failed += 1;
    return;
  }
  const { numPassedTests, numFailedTests, numPendingTests, testResults } = JSON.parse(
    readFileSync(file, 'utf8'),
  );
  counts.passed += numPassedTests;
  counts.failed += numFailedTests + (fine || numFailedTests > 0 ? 0 : 1);
  counts.skipped += numPendingTests;
  for (const suite of testResults) {
    for (const t of suite.assertionResults)
      if (t.status === 'skipped' || t.status === 'pending') notes.push(`Skipped: ${t.fullName}`);
  }
}

async function windows() {
  await ensureBuilt(['service', 'renderer', 'shell'], say);
  const file = join(RESULTS, 'windows.json');
  const fine = run('Windows: Chromium and the desktop shell', bin('playwright'), ['test'], {
    PLAYWRIGHT_JSON_OUTPUT_NAME: file,
  });
  if (!existsSync(file)) {
    counts.failed += 1;
    return;
  }
  const { stats, suites } = JSON.parse(readFileSync(file, 'utf8'));
  counts.passed += stats.expected + stats.flaky;
  counts.failed += stats.unexpected + (fine || stats.unexpected > 0 ? 0 : 1);
  counts.skipped += stats.skipped;
  const walk = (suite) => {
    for (const spec of suite.specs ?? []) {
      for (const t of spec.tests) {
        if (t.status === 'skipped')
          notes.push(
            `Skipped: ${spec.title}${t.annotations.map((a) => (a.description ? ` (${a.description})` : '')).join('')}`,
          );
      }
    }
    for (const inner of suite.suites ?? []) walk(inner);
  };
  for (const suite of suites) walk(suite);
}

const PARTS = {
  types: () => check('Types', bin('tsc'), ['--noEmit', '-p', 'tsconfig.json']),
  lint: () => check('Lint and format', bin('biome'), ['check', '.']),
  house: () => check('Import rule', process.execPath, [join(ROOT, 'scripts/check-house.mjs')]),
  unused: () => check('Unused code', bin('knip'), ['--no-progress']),
  unit,
  windows:
    onPath('chromium') || onPath('google-chrome') || onPath('chromium-browser')
      ? windows
      : () => notes.push('No Chromium: the window tests were skipped.'),
};

const unknown = wanted.filter((name) => !(name in PARTS));
if (unknown.length) {
  say(`There is no part ${unknown.join(', ')}. The parts are ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}
for (const [name, part] of Object.entries(PARTS))
  if (wanted.length === 0 || wanted.includes(name)) await part();

if (notes.length) say(`\n${[...new Set(notes)].join('\n')}`);
say(
  `\nTests: ${counts.passed} passed, ${counts.failed} failed${counts.skipped ? `, ${counts.skipped} skipped` : ''}`,
);
process.exit(counts.failed > 0 || counts.passed === 0 ? 1 : 0);
