import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../../db/journal/edit.ts';
import { findGame, findPlay } from '../../../../db/repositories/games.ts';
import { type OpenGame, type OpenRow, openGames } from '../../../../football/open-names/nflverse.ts';
import { ProblemError } from '../../../../football/result.ts';
import type { Sheet } from '../../../export/tables/read-sheet.ts';
import type { Station } from '../../station.ts';
import { fieldChanges } from '../field-changes.ts';
import { valueFromPlain } from '../plain-value.ts';
import { newPlayChanges } from '../tags.ts';
import type { ImportReport } from './import.ts';

export interface OpenImportReport extends ImportReport {
  /** rows that are no plays: timeouts, ends of quarters */
  readonly skipped: readonly { row: number; reason: string }[];
  /** what the sheet's columns cannot say about a play; left empty */
  readonly unsaid: readonly { row: number; field: string; reason: string }[];
}

/** Columns without which a sheet is not one of open play-by-play. */
const NEEDED = ['game_id', 'posteam', 'desc'];

/**
 * Brings in whole games from a sheet whose columns are named by the open play-by-play dictionary. Several columns
 * together say one thing there, so it is read as a whole and not column by column. Rows are counted from 1.
 * @throws ProblemError `map-unfit`, `game-ambiguous`
 */
export function importOpenNames(station: Station, sheet: Sheet, gameTitle: string | null): OpenImportReport {
  const missing = NEEDED.filter((name) => !sheet.columns.includes(name));
  if (missing.length > 0) {
    throw new ProblemError({
      code: 'map-unfit',
      message: `The sheet has no column ${missing.join(', ')}, so its columns are not those of the open play-by-play dictionary.`,
      kept: 'Nothing was brought in.',
      next: 'Leave --map nflverse out and map its columns.',
    });
  }
  const rows = sheet.rows.map(
    (cells): OpenRow => Object.fromEntries(sheet.columns.map((name, i) => [name, cells[i] ?? null])),
  );
  const games = openGames(rows);
  if (gameTitle !== null && games.length > 1) {
    throw new ProblemError({
      code: 'game-ambiguous',
      message: `The sheet holds ${games.length} games, so they cannot all be ${gameTitle}.`,
      kept: 'Nothing was brought in.',
      next: 'Leave --game out; each game is then named as the sheet names it.',
    });
  }
  const report = { imported: 0, updated: 0, unchanged: 0 };
  const refused: { row: number; column: string; reason: string }[] = [];
  const newTerms = new Map<string, { field: string; name: string }>();
  const made = new Map<string, string>();
  const changes = games.flatMap((game) =>
    gameChanges(station, game, gameTitle ?? game.gameId, { report, refused, newTerms, made }),
  );
  station.library.journal.commit(
    { label: `bring in ${games.length} ${games.length === 1 ? 'game' : 'games'}`, origin: 'imported' },
    changes,
  );
  return {
    ...report,
    newTerms: [...newTerms.values()],
    refused,
    unread: [],
    skipped: games.flatMap((g) => g.skipped.map((s) => ({ ...s, row: s.row + 1 }))),
    unsaid: games.flatMap((g) => g.unsaid.map((u) => ({ ...u, row: u.row + 1 }))),
  };
}

interface Tally {
  readonly report: { imported: number; updated: number; unchanged: number };
  readonly refused: { row: number; column: string; reason: string }[];
  readonly newTerms: Map<string, { field: string; name: string }>;
  /** players and terms made on the way, one for all games of the sheet */
  readonly made: Map<string, string>;
}

function gameChanges(station: Station, game: OpenGame, title: string, tally: Tally): Change[] {
  const known = findGame(station.library, title);
  const gameId = known?.id ?? uuidv7();
  const at = { entity: 'game', id: gameId };
  const opponent = game.home === station.team ? game.away : game.away === station.team ? game.home : null;
  const changes: Change[] = known
    ? []
    : [
        { ...at, field: 'removed', value: 0 },
        { ...at, field: 'title', value: title },
        { ...at, field: 'season', value: game.season },
        { ...at, field: 'opponent', value: opponent },
      ];
  const context = { film: null, at: new Date().toISOString() };
  for (const play of game.plays) {
    const number = play.columns.playNumber ?? 0;
    const playId = (known && findPlay(station.library, gameId, number)) || uuidv7();
    const isNew = !known || findPlay(station.library, gameId, number) === null;
    const own: Change[] = isNew ? newPlayChanges(playId, gameId, number) : [];
    for (const [key, plain] of Object.entries({ ...play.columns, ...play.tags })) {
      const field = station.vocabulary().fields.get(key);
      if (!field || key === 'playNumber') continue;
      const value = valueFromPlain(field, plain);
      if (!value) continue;
      if (value.kind === 'term' && key !== 'possession' && !station.vocabulary().findTerm(key, value.name)) {
        tally.newTerms.set(value.termId, { field: key, name: value.name });
      }
      try {
        own.push(...fieldChanges(station, playId, key, value, context, tally.made));
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        tally.refused.push({ row: play.row + 1, column: key, reason: error.problem.message });
      }
    }
    if (isNew) tally.report.imported += 1;
    else if (own.some((c) => station.library.journal.wouldChange(c))) tally.report.updated += 1;
    else tally.report.unchanged += 1;
    changes.push(...own);
  }
  return changes;
}
