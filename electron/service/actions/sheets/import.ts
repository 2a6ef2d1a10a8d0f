import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../../db/journal/edit.ts';
import { listGames } from '../../../../db/repositories/games.ts';
import { readSetting } from '../../../../db/repositories/vocabulary.ts';
import { type Problem, ProblemError } from '../../../../football/result.ts';
import type { FieldValue } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { termKey } from '../../../../football/vocabulary/terms.ts';
import type { Sheet } from '../../../export/tables/read-sheet.ts';
import type { Station } from '../../station.ts';
import { fieldChanges } from '../field-changes.ts';
import { newPlayChanges } from '../tags.ts';
import { type CellReading, isMissing, readCell } from './cells.ts';
import { guessMap, mapKey, type SheetMap, sheetFields } from './mapping.ts';

export interface ImportReport {
  /** plays that are new */
  readonly imported: number;
  /** plays that were there and got another value */
  readonly updated: number;
  /** plays that were there and said the same */
  readonly unchanged: number;
  readonly newTerms: readonly { field: string; name: string }[];
  /** row 1 is the first under the headings */
  readonly refused: readonly { row: number; column: string; reason: string }[];
  /** columns of the sheet that nothing was read from */
  readonly unread: readonly string[];
}

/** The map that a sheet is read with: what the user gives, over what was remembered, over what names say. */
export function mapFor(station: Station, sheet: Sheet, given: Partial<SheetMap> | null): SheetMap {
  if (given?.columns && Object.keys(given.columns).length > 0) {
    return { columns: given.columns, values: given.values ?? {} };
  }
  const known =
    readSetting<SheetMap>(station.library, mapKey(sheet.columns)) ??
    guessMap(sheet.columns, station.vocabulary());
  return { columns: known.columns, values: { ...known.values, ...given?.values } };
}

interface MappedColumn {
  readonly name: string;
  readonly index: number;
  readonly field: FieldDefinition;
}

/**
 * @throws ProblemError `map-unfit` when the map names a column or a field that is not there, or one field twice
 */
export function mappedColumns(station: Station, sheet: Sheet, map: SheetMap): MappedColumn[] {
  const fields = new Map(sheetFields(station.vocabulary()).map((f) => [f.key, f]));
  const seen = new Map<string, string>();
  return Object.entries(map.columns)
    .filter(([, key]) => key !== '')
    .map(([name, key]) => {
      const index = sheet.columns.indexOf(name);
      if (index < 0)
        throw unfit(`The sheet has no column ${name}.`, `Its columns are ${sheet.columns.join(', ')}.`);
      const field = fields.get(key);
      if (!field) {
        const near = station.vocabulary().fields.nearest(key);
        throw unfit(
          `There is no field ${key} that a sheet can fill.`,
          near ? `Did you mean ${near}?` : '`tapebook fields` lists all fields.',
        );
      }
      const other = seen.get(key);
      if (other)
        throw unfit(
          `The columns ${other} and ${name} are both mapped to ${key}.`,
          'Map one of them to another field, or to nothing.',
        );
      seen.set(key, name);
      return { name, index, field };
    });
}

function unfit(message: string, next: string): ProblemError {
  return new ProblemError({
    code: 'map-unfit',
    message,
    kept: 'Nothing was brought in.',
    next,
  } satisfies Problem);
}

/**
 * Brings the rows of a sheet in as plays, in one gesture. A row is the play of its game with its play number; a sheet
 * without play numbers is taken in its order, row 1 as play 1. A play that is there gets what the row says and keeps
 * what the row leaves empty, so the same sheet again changes nothing.
 * @throws ProblemError `map-unfit`, `game-missing`
 */
export function importSheet(
  station: Station,
  sheet: Sheet,
  options: { map: SheetMap; gameTitle: string | null },
): ImportReport {
  const columns = mappedColumns(station, sheet, options.map);
  const gameColumn = columns.find((c) => c.field.key === 'game');
  if (!gameColumn && !options.gameTitle) {
    throw new ProblemError({
      code: 'game-missing',
      message: 'The sheet has no column that is mapped to game, and no game was named.',
      kept: 'Nothing was brought in.',
      next: 'Name the game with --game <title>, or map a column to game.',
    });
  }
  const rowsIn = new SheetRows(station, columns, options.map);
  sheet.rows.forEach((cells, i) => {
    const title = options.gameTitle ?? (gameColumn ? (cells[gameColumn.index] ?? '').trim() : '');
    rowsIn.add(i + 1, cells, title, gameColumn?.name ?? 'game');
  });
  const report = rowsIn.report(sheet.columns.filter((name) => !columns.some((c) => c.name === name)));
  station.library.journal.commit(
    { label: `bring in ${report.imported + report.updated} plays`, origin: 'imported' },
    [
      ...rowsIn.changes,
      { entity: 'setting', id: mapKey(sheet.columns), field: 'value', value: JSON.stringify(options.map) },
    ],
  );
  return report;
}

interface KnownGame {
  readonly id: string;
  readonly plays: Map<number, string>;
  season: number | null;
  next: number;
}

/** Collects the changes of all rows before any is committed, so that a sheet comes in whole or not at all. */
class SheetRows {
  readonly changes: Change[] = [];
  private readonly refused: { row: number; column: string; reason: string }[] = [];
  private readonly newTerms = new Map<string, { field: string; name: string }>();
  private readonly games = new Map<string, KnownGame>();
  private readonly made = new Map<string, string>();
  private readonly context = { film: null, at: new Date().toISOString() };
  private readonly readings = new Map<string, CellReading>();
  private readonly seen = new Set<string>();
  private imported = 0;
  private updated = 0;
  private unchanged = 0;

  constructor(
    private readonly station: Station,
    private readonly columns: readonly MappedColumn[],
    private readonly map: SheetMap,
  ) {
    for (const game of listGames(station.library)) {
      const rows = station.library.db
        .prepare(
          'SELECT id, play_number AS n FROM plays WHERE game_id = ? AND removed = 0 AND play_number IS NOT NULL',
        )
        .all(game.id) as { id: string; n: number }[];
      this.games.set(gameKey(game.title), {
        id: game.id,
        plays: new Map(rows.map((r) => [r.n, r.id])),
        season: game.season,
        next: 1,
      });
    }
  }

  add(row: number, cells: readonly string[], title: string, gameColumn: string): void {
    if (isMissing(title)) {
      this.refused.push({ row, column: gameColumn, reason: 'the row names no game' });
      return;
    }
    const values: { field: FieldDefinition; value: FieldValue }[] = [];
    let playNumber: number | null = null;
    for (const column of this.columns) {
      if (column.field.key === 'game') continue;
      const reading = this.read(column, cells[column.index] ?? '');
      if (!reading.ok) {
        this.refused.push({ row, column: column.name, reason: reading.reason });
        if (column.field.key === 'playNumber') return;
        continue;
      }
      if (reading.value === null) continue;
      if (reading.newTerm)
        this.newTerms.set(`${column.field.key}\n${termKey(reading.newTerm)}`, {
          field: column.field.key,
          name: reading.newTerm,
        });
      if (column.field.key === 'playNumber' && reading.value.kind === 'number')
        playNumber = reading.value.number;
      else values.push({ field: column.field, value: reading.value });
    }
    const hasNumbers = this.columns.some((c) => c.field.key === 'playNumber');
    if (hasNumbers && playNumber === null) {
      this.refused.push({
        row,
        column: this.columns.find((c) => c.field.key === 'playNumber')?.name ?? 'playNumber',
        reason: 'the row has no play number',
      });
      return;
    }
    if (!hasNumbers && values.length === 0) return;
    const game = this.game(title);
    const number = playNumber ?? game.next;
    game.next = number + 1;
    const key = `${game.id} ${number}`;
    if (this.seen.has(key)) {
      this.refused.push({
        row,
        column: this.columns.find((c) => c.field.key === 'playNumber')?.name ?? 'playNumber',
        reason: `play ${number} of ${title} is already in an earlier row of this sheet`,
      });
      return;
    }
    this.seen.add(key);
    this.put(game, number, values, row);
  }

  report(unread: readonly string[]): ImportReport {
    return {
      imported: this.imported,
      updated: this.updated,
      unchanged: this.unchanged,
      newTerms: [...this.newTerms.values()],
      refused: this.refused,
      unread,
    };
  }

  private put(
    game: KnownGame,
    playNumber: number,
    values: readonly { field: FieldDefinition; value: FieldValue }[],
    row: number,
  ): void {
    const known = game.plays.get(playNumber);
    const playId = known ?? uuidv7();
    const changes: Change[] = known ? [] : newPlayChanges(playId, game.id, playNumber);
    for (const { field, value } of values) {
      if (field.home === 'game') {
        if (field.key === 'season' && value.kind === 'number') this.setSeason(game, value.number);
        continue;
      }
      try {
        changes.push(...fieldChanges(this.station, playId, field.key, value, this.context, this.made));
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        this.refused.push({ row, column: field.key, reason: error.problem.message });
      }
    }
    this.changes.push(...changes);
    if (!known) {
      game.plays.set(playNumber, playId);
      this.imported += 1;
    } else if (changes.some((c) => this.station.library.journal.wouldChange(c))) this.updated += 1;
    else this.unchanged += 1;
  }

  private setSeason(game: KnownGame, season: number): void {
    if (game.season !== null) return;
    game.season = season;
    this.changes.push({ entity: 'game', id: game.id, field: 'season', value: season });
  }

  private game(title: string): KnownGame {
    const known = this.games.get(gameKey(title));
    if (known) return known;
    const id = uuidv7();
    this.changes.push(
      { entity: 'game', id, field: 'removed', value: 0 },
      { entity: 'game', id, field: 'title', value: title },
    );
    const game: KnownGame = { id, plays: new Map(), season: null, next: 1 };
    this.games.set(gameKey(title), game);
    return game;
  }

  /** Sheets repeat a few values many times: each is read once. */
  private read(column: MappedColumn, cell: string): CellReading {
    const key = `${column.index}\n${cell}`;
    const known = this.readings.get(key);
    if (known) return known;
    const theirs = this.map.values[column.field.key];
    const mapped = theirs && Object.hasOwn(theirs, cell.trim()) ? theirs[cell.trim()] : undefined;
    const reading = readCell(column.field, mapped ?? cell, this.station.vocabulary(), mapped !== undefined);
    this.readings.set(key, reading);
    return reading;
  }
}

function gameKey(title: string): string {
  return title.trim().toLowerCase();
}
