import { ensureBuilt } from './lib/build.mjs';
import { ensureInstalled } from './lib/install.mjs';

const say = (line) => process.stderr.write(`${line}\n`);
const named = process.argv.slice(2);
ensureInstalled(say);
await ensureBuilt(named.length > 0 ? named : ['service', 'shell', 'renderer'], say);
