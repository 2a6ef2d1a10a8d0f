import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createLibrary } from '../../db/library.ts';
import { addGame } from '../../electron/service/actions/games.ts';
import { addPlay } from '../../electron/service/actions/tags.ts';
import { openStation, Station } from '../../electron/service/station.ts';
import { defineWork } from '../../electron/service/work.ts';
import { type Problem, ProblemError } from '../../football/result.ts';

/** A station of the Herons in a folder of its own. */
export interface TestStation {
  readonly folder: string;
  readonly path: string;
  station: Station;
  /** closes the library and opens it again, as a restart does */
  reopen(): Promise<Station>;
  remove(): Promise<void>;
}

export function testStation(name = 'herons'): TestStation {
  const folder = mkdtempSync(join(tmpdir(), 'tapebook-station-'));
  const path = join(folder, `${name}.tapebook`);
  const made: TestStation = {
    folder,
    path,
    station: new Station(createLibrary(path, { team: 'Herons', level: 'ncaa' }), 'coach'),
    async reopen() {
      await made.station.close();
      made.station = openStation(path, { person: 'coach' });
      defineWork(made.station);
      return made.station;
    },
    async remove() {
      await made.station.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  defineWork(made.station);
  return made;
}

/** A game of the Herons against the Mariners with so many plays, none of them logged. */
export function gameOf(station: Station, plays: number): { gameId: string; playIds: string[] } {
  const { gameId } = addGame(station, { title: 'Herons v Mariners', season: 2025, opponent: 'Mariners' });
  return { gameId, playIds: Array.from({ length: plays }, () => addPlay(station, gameId, null).playId) };
}

/** The problem that some work ends in. @throws what is no problem, and when the work does not fail */
export async function problemOf(work: () => unknown): Promise<Problem> {
  try {
    await work();
  } catch (error) {
    if (error instanceof ProblemError) return error.problem;
    throw error;
  }
  throw new Error('It did not fail.');
}
