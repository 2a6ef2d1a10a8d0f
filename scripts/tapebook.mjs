import { ensureInstalled } from './lib/install.mjs';

// standard output belongs to the command's result
const say = (line) => process.stderr.write(`${line}\n`);
try {
  ensureInstalled(say);
  const { ensureBuilt } = await import('./lib/build.mjs');
  await ensureBuilt(['service'], say);
} catch (error) {
  say(error.message);
  process.exit(2);
}
await import('../dist/service/cli.mjs');
