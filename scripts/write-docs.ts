import { readFileSync, writeFileSync } from 'node:fs';
import { withGenerated } from './lib/generated-docs.ts';

/** Writes what the README says of keys and commands from their definitions. */
const readme = new URL('../README.md', import.meta.url);
writeFileSync(readme, withGenerated(readFileSync(readme, 'utf8')));
await import('./write-metrics-page.ts');
