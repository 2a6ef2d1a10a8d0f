import { ensureBuilt } from './lib/build.mjs';
import { ensureInstalled } from './lib/install.mjs';

const say = (line) => process.stderr.write(`${line}\n`);
ensureInstalled(say);
await ensureBuilt(['service', 'shell', 'renderer'], say);
