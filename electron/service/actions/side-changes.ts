import { withDrives } from '../../../db/question/drives.ts';
import { listGames } from '../../../db/repositories/games.ts';
import { loadPlaysById } from '../../../db/repositories/play-records.ts';
import type { PlayRecord } from '../../../football/play.ts';
import {
  OUTSIDE_FIELDS,
  type SideChangeLine,
  sideChangesOf,
} from '../../../football/side-changes/side-changes.ts';
import type { Station } from '../station.ts';
import { readQuestion } from './answers.ts';

export interface SideChangesView {
  readonly lines: readonly (SideChangeLine & { readonly game: string })[];
  /** plays that do not say where the outside receivers line up */
  readonly untagged: number;
}

/** How far outside receivers ran to change sides, per game or practice. @throws ProblemError why the question cannot be read */
export function sideChanges(station: Station, where: string): SideChangesView {
  const playIds = station.columns().playIds(readQuestion(station, where));
  const records = new Map(
    loadPlaysById(station.library.db, playIds).map(({ record }) => [record.playId, record]),
  );
  const games = new Map<string, PlayRecord[]>();
  let untagged = 0;
  for (const playId of playIds) {
    const play = records.get(playId);
    if (!play) continue;
    if (OUTSIDE_FIELDS.every((key) => play.tags[key] === undefined)) untagged++;
    const plays = games.get(play.gameId);
    if (plays) plays.push(play);
    else games.set(play.gameId, [play]);
  }
  const titles = new Map(listGames(station.library).map((game) => [game.id, game.title]));
  const lines = [...games].flatMap(([gameId, plays]) =>
    sideChangesOf([...withDrives(plays)]).map((line) => ({ game: titles.get(gameId) ?? '', ...line })),
  );
  return { lines, untagged };
}
