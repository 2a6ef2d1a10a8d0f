import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import { createLibrary, openLibrary } from '../../../db/library.ts';
import { loadPlays } from '../../../db/repositories/play-records.ts';
import { Station } from '../../../electron/service/station.ts';
import { seeded } from '../../support/seeded.ts';
import { gameOf } from '../../support/station.ts';

const PLAYS = 6;
/** Two libraries side by side, because a start is mostly waiting. */
const LANES = [{ seed: 20250906 }, { seed: 20250913 }];
const KILLS_PER_LANE = 26;

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-kill-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Running {
  readonly child: ChildProcess;
  readonly address: URL;
}

/** The service as `npm start` runs it, without a window. */
function start(library: string): Promise<Running> {
  const child = spawn(process.execPath, ['dist/service/main.mjs', '--library', library], {
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    let said = '';
    let trouble = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      trouble += text;
    });
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      if (said.includes('\n')) resolve({ child, address: new URL(JSON.parse(said).address as string) });
    });
    child.once('exit', (code) => reject(new Error(`The service ended with ${code}: ${trouble}`)));
  });
}

/** What a play may say after the kill: what was acknowledged last, or what was on its way. */
interface Promised {
  acknowledged: string | null;
  onItsWay: string | null;
}

const CONCEPTS = ['stick', 'mesh', 'smash', 'power', 'counter'];
const conceptOf = (text: string) => CONCEPTS[Number(text) % CONCEPTS.length]!;

/** Tags one play again and again until the service is gone. */
async function tagOn(
  { address }: Running,
  playId: string,
  promised: Promised,
  next: () => string,
  first: () => void,
): Promise<number> {
  for (let stored = 0; ; stored += 1) {
    const text = next();
    promised.onItsWay = text;
    try {
      const answer = await fetch(new URL('/api/tags', address), {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          'x-tapebook-secret': address.searchParams.get('secret') ?? '',
        },
        body: JSON.stringify({
          playId,
          changes: [
            { field: 'note', value: { kind: 'text', text } },
            { field: 'concept', value: { kind: 'term', termId: '', name: conceptOf(text) } },
          ],
        }),
      });
      // the head of an answer is the acknowledgement; the rest of it may be cut off
      if (answer.status !== 200) throw new Error(`status ${answer.status}: ${await answer.text()}`);
      promised.acknowledged = text;
      promised.onItsWay = null;
      first();
      await answer.arrayBuffer();
    } catch (error) {
      if ((error as Error).message.startsWith('status')) throw error;
      return stored;
    }
  }
}

async function killAgainAndAgain(lane: { seed: number }): Promise<{ kills: number; tags: number }> {
  const random = seeded(lane.seed);
  const path = join(folder, `${lane.seed}.tapebook`);
  const made = new Station(createLibrary(path, { team: 'Herons', level: 'ncaa' }), 'coach');
  const { playIds } = gameOf(made, PLAYS);
  await made.close();
  const promises = new Map<string, Promised>(
    playIds.map((id) => [id, { acknowledged: null, onItsWay: null }]),
  );
  let count = 0;
  let tags = 0;
  let kills = 0;
  for (; kills < KILLS_PER_LANE; kills += 1) {
    const running = await start(path);
    const dead = new Promise((resolve) => running.child.once('exit', (_, signal) => resolve(signal)));
    // counted in acknowledgements and not in time, so that a slow machine is killed as deep in its work as a fast one
    let left = random() < 0.8 ? 1 + Math.floor(random() * 6) : 0;
    let enough = () => {};
    const acknowledged = new Promise<void>((resolve) => {
      enough = resolve;
    });
    const tell = () => {
      left -= 1;
      if (left <= 0) enough();
    };
    if (left === 0) enough();
    const work = playIds
      .slice(0, 1 + Math.floor(random() * 3))
      .map((id) => tagOn(running, id, promises.get(id)!, () => String(++count), tell));
    // most kills come when tags are flowing, some before the first one is in
    await Promise.race([acknowledged, dead]);
    await new Promise((wait) => setTimeout(wait, random() * 40));
    running.child.kill('SIGKILL');
    expect(await dead).toBe('SIGKILL');
    for (const stored of await Promise.all(work)) tags += stored;

    const library = openLibrary(path);
    const where = `after kill ${kills + 1} of seed ${lane.seed}`;
    expect(checkLibrary(library), where).toMatchObject({ ok: true, integrity: [], journal: [] });
    for (const { record } of loadPlays(library.db)) {
      const promised = promises.get(record.playId)!;
      expect([promised.acknowledged, promised.onItsWay ?? promised.acknowledged], where).toContain(
        record.note,
      );
      // a gesture is there whole or not at all
      expect(record.tags.concept ?? null, where).toBe(record.note && conceptOf(record.note));
      Object.assign(promised, { acknowledged: record.note, onItsWay: null });
    }
    library.close();
  }
  return { kills, tags };
}

describe('the service killed in the midst of logging', () => {
  it('loses no tag that it acknowledged, in 52 kills, and its library is sound after each', async () => {
    const lanes = await Promise.all(LANES.map(killAgainAndAgain));
    expect(lanes.reduce((sum, lane) => sum + lane.kills, 0)).toBeGreaterThanOrEqual(50);
    // the kills came while tags were coming in
    expect(lanes.reduce((sum, lane) => sum + lane.tags, 0)).toBeGreaterThan(80);
  }, 300_000);
});
