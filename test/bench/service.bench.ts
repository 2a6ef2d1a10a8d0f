import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Change } from '../../db/journal/edit.ts';
import { tagId } from '../../db/journal/entities.ts';
import { createLibrary } from '../../db/library.ts';
import { probeFilms } from '../../electron/film/probe.ts';
import { answer, table } from '../../electron/service/actions/answers.ts';
import { addGame } from '../../electron/service/actions/games.ts';
import { addPlay } from '../../electron/service/actions/tags.ts';
import { serveStation } from '../../electron/service/server.ts';
import { Station } from '../../electron/service/station.ts';
import { termId } from '../../football/vocabulary/terms.ts';
import { record } from './record.ts';

/** Times of the main job: a tag over HTTP, a question over 20,000 plays, the first of 120 clips. */
const folder = mkdtempSync(join(tmpdir(), 'tapebook-bench-'));
const median = (times: number[]) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;

async function tagOverHttp(): Promise<void> {
  const station = new Station(
    createLibrary(join(folder, 'tag.tapebook'), { team: 'Herons', level: 'ncaa' }),
    'coach',
  );
  const { gameId } = addGame(station, { title: 'Herons v Mariners', opponent: 'Mariners' });
  const plays = Array.from({ length: 180 }, () => addPlay(station, gameId, null).playId);
  station.columns();
  const service = await serveStation(station, { secret: 'bench' });
  const times: number[] = [];
  for (let i = 0; i < 300; i += 1) {
    const body = JSON.stringify({
      playId: plays[i % 180],
      changes: [{ field: 'gain', value: { kind: 'number', number: i % 20 } }],
    });
    const start = performance.now();
    await (
      await fetch(`${service.origin}/api/tags`, {
        method: 'POST',
        body,
        headers: { 'content-type': 'application/json', 'x-tapebook-secret': 'bench' },
      })
    ).json();
    times.push(performance.now() - start);
  }
  record('a tag, from the request to the answer, of a game of 180 plays', median(times), 50, 'ms');
  await service.close();
  await station.close();
}

async function questions(): Promise<void> {
  const station = new Station(
    createLibrary(join(folder, 'ask.tapebook'), { team: 'Herons', level: 'ncaa' }),
    'coach',
  );
  const concepts = ['stick', 'mesh', 'smash', 'snag', 'four verticals', 'curl-flat', 'power', 'counter'];
  const coverages = ['Cover 1', 'Cover 2', 'Cover 3 sky', 'Cover 3 buzz', 'Cover 3 cloud', 'Cover 4'];
  const changes: Change[] = [];
  const tag = (playId: string, field: string, name: string) =>
    changes.push({
      entity: 'tag',
      id: tagId(playId, field),
      field: 'value',
      value: [termId(field, name), null, null, null, null, null, 'coach', null],
    });
  for (let g = 0; g < 100; g += 1) {
    changes.push(
      { entity: 'game', id: `g${g}`, field: 'removed', value: 0 },
      { entity: 'game', id: `g${g}`, field: 'title', value: `Game ${g}` },
    );
    for (let n = 1; n <= 200; n += 1) {
      const id = `p${g}-${n}`;
      const at = { entity: 'play', id };
      const values = {
        gameId: `g${g}`,
        playNumber: n,
        quarter: 1 + (n >> 6),
        possession: n % 40 < 20 ? 'Herons' : 'Mariners',
        down: 1 + (n % 4),
        distance: 1 + (n % 12),
        yardsToGoal: 1 + (n % 99),
        playKind: n % 3 ? 'pass' : 'run',
        result: n % 3 ? 'complete' : 'rush',
        gain: n % 17,
        removed: 0,
      };
      for (const [field, value] of Object.entries(values)) changes.push({ ...at, field, value });
      tag(id, 'concept', concepts[n % concepts.length] ?? '');
      tag(id, 'coverage', coverages[(n * 7) % coverages.length] ?? '');
    }
  }
  station.library.journal.commit({ label: 'bench' }, changes);
  const built = performance.now();
  station.columns();
  record('opening the columns of 20,000 plays', performance.now() - built, 5000, 'ms');
  const times: number[] = [];
  for (let i = 0; i < 60; i += 1) {
    const where = `concept = '${concepts[i % 8]}' AND coverage = 'Cover 3' AND down = ${1 + (i % 4)}`;
    const start = performance.now();
    answer(station, where);
    table(station, { where, rows: 'concept', cols: 'coverage' });
    times.push(performance.now() - start);
  }
  record('a question and its table over 20,000 plays', median(times), 50, 'ms');
  await station.close();
}

async function firstClip(): Promise<void> {
  const paths = Array.from({ length: 120 }, (_, i) => {
    const path = join(folder, `play-${i}.mp4`);
    copyFileSync('sample-clips/herons-mariners-003-sideline.mp4', path);
    return path;
  });
  const start = performance.now();
  let first = 0;
  for await (const _ of probeFilms(paths)) first ||= performance.now() - start;
  record('the first of 120 clips, probed and playable', first, 2000, 'ms');
  record('all of 120 clips', performance.now() - start, 60_000, 'ms');
}

await tagOverHttp();
await questions();
await firstClip();
rmSync(folder, { recursive: true, force: true });
