/** Writes docs/metrics.md from the definitions: `npx tsx scripts/write-metrics-page.ts`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { metricsPage } from '../football/metrics/page.ts';

mkdirSync('docs', { recursive: true });
writeFileSync('docs/metrics.md', metricsPage());
