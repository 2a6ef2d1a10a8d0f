import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, ROOT } from './lib/install.mjs';

/**
 * Measures, and compares with the stored baseline as ratios: `npm run bench`; `npm run bench -- --save` makes what was
 * measured the new baseline. A drop past 10 % is said; benchmarks never fail a build.
 */
const say = (line) => process.stdout.write(`${line}\n`);
ensureInstalled(say);
const folder = join(ROOT, 'test', 'bench');
const baselinePath = join(folder, 'baseline.json');
const baseline = existsSync(baselinePath) ? JSON.parse(readFileSync(baselinePath, 'utf8')) : {};
const measured = {};
let slower = 0;

for (const file of readdirSync(folder)
  .filter((name) => name.endsWith('.bench.ts'))
  .sort()) {
  say(`\n${file}`);
  const run = spawnSync(join(ROOT, 'node_modules', '.bin', 'tsx'), [join(folder, file)], {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (run.status !== 0) say(`  did not finish (code ${run.status})`);
  for (const line of run.stdout.split('\n').filter(Boolean)) {
    if (!line.startsWith('{')) {
      say(`  ${line}`);
      continue;
    }
    const { what, value, goal, unit } = JSON.parse(line);
    measured[what] = value;
    const before = baseline[what];
    const ratio = before ? value / before : null;
    if (ratio !== null && ratio > 1.1) slower += 1;
    const beside =
      ratio === null ? 'no baseline' : `${ratio.toFixed(2)} of the baseline${ratio > 1.1 ? ' (slower)' : ''}`;
    say(`  ${what}: ${value} ${unit}, goal ${goal} ${unit}${value > goal ? ' MISSED' : ''}, ${beside}`);
  }
}
if (process.argv.includes('--save')) {
  writeFileSync(baselinePath, `${JSON.stringify(measured, null, 2)}\n`);
  say('\nSaved as the baseline.');
} else if (slower > 0)
  say(
    `\n${slower} measured more than 10 % slower than the baseline: look into it, or save a new one with -- --save.`,
  );
