import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { probeFilm } from '../../electron/film/probe.ts';
import { bendFilm, filmsToBend } from '../fixtures/bent-film.ts';
import { tools } from '../fixtures/numbered-film.ts';
import { record } from './record.ts';

/** 2,000 damaged films, each refused with a reason or read: no crash, no hang over its limit, nothing fetched or written. */
const FILMS = Number(process.env.BENT_FILMS ?? 2000);
const LIMIT_MS = 5_000;
const folder = mkdtempSync(join(tmpdir(), 'tapebook-bent-'));
const at = (name: string) => join(folder, name);
let asked = 0;
const server = createServer((_, response) => {
  asked += 1;
  response.end();
}).listen(0, '127.0.0.1');
const sources = await filmsToBend(at);
const before = readdirSync(folder).length;
const counts: Record<string, number> = {};
const times: number[] = [];
let wordless = 0;
let late = 0;
for (let film = 0; film < FILMS; film += 1) {
  const source = sources[film % sources.length]!;
  const path = at(`bent.${source.split('.').pop()}`);
  writeFileSync(path, bendFilm(source, 20250906 + film));
  const start = performance.now();
  const result = await probeFilm(path, { tools, timeLimitMs: LIMIT_MS });
  const ms = performance.now() - start;
  times.push(ms);
  // a limit is kept to the second that ending a reader may take
  if (ms > LIMIT_MS + 1_000) late += 1;
  const outcome = result.ok ? 'read' : result.problem.code;
  counts[outcome] = (counts[outcome] ?? 0) + 1;
  const said = result.ok
    ? result.value.frames > 0
    : result.problem.message.includes('bent.') && result.problem.next;
  if (!said) wordless += 1;
  rmSync(path);
}
console.log(
  `of ${FILMS}: ${Object.entries(counts)
    .map(([what, count]) => `${count} ${what}`)
    .join(', ')}`,
);
record('damaged films looked into', times.length, FILMS, 'films');
record('damaged films neither read nor refused with a reason and what to do', wordless, 0, 'films');
record('damaged films that took longer than their limit', late, 0, 'films');
record('files that reading them left behind', readdirSync(folder).length - before, 0, 'files');
record('requests to a network', asked, 0, 'requests');
record('looking into a damaged film, median', times.sort((a, b) => a - b)[times.length >> 1] ?? 0, 500, 'ms');
server.close();
rmSync(folder, { recursive: true, force: true });
