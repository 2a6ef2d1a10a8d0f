/**
 * Every play's fields in typed columns, for answers while the question is still warm. It is a cache of the library:
 * whoever commits an edit sets the plays it changed, and SQLite gives the same answers (db/question).
 */

import type { PlayRecord } from '../../football/play.ts';
import type { Question } from '../../football/question/ast.ts';
import { FieldSet } from '../../football/question/fieldset.ts';
import { Families, type QuestionTerm } from '../../football/question/vocabulary.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import { type Column, NumberColumn, WordColumn } from './column.ts';
import { CounterColumns, type CounterSource } from './counters.ts';
import { evaluate } from './evaluate.ts';
import { countFields, type FieldCounts } from './facets.ts';
import { RowOrder } from './order.ts';
import { fieldValue, type GameRow, isWordKind } from './play-values.ts';
import { type CountedGroup, type CountedTable, countTable, type TableRequest } from './table.ts';
import { countBits, hasBit, setBit, wordsFor } from './truth.ts';

export interface ColumnStoreOptions {
  readonly fields: readonly FieldDefinition[];
  readonly terms: readonly QuestionTerm[];
  /** what tables add up; none when not given */
  readonly counters?: CounterSource<PlayRecord>;
}

const NO_COUNTERS: CounterSource<PlayRecord> = { names: [], facts: () => [] };

export class ColumnStore {
  readonly fields: FieldSet;
  readonly columns: ReadonlyMap<string, Column>;
  readonly counters: CounterColumns;
  families: Families;
  private readonly source: CounterSource<PlayRecord>;
  private capacity = 256;
  private alive = new Int32Array(wordsFor(this.capacity));
  private ids: (string | null)[] = [];
  private readonly rowOf = new Map<string, number>();
  private readonly free: number[] = [];
  /** of each row: the index of its game, and the play's number within it */
  private gameOf = new Int32Array(this.capacity);
  private numberOf = new Float64Array(this.capacity);
  private readonly games: GameRow[] = [];
  private readonly gameAt = new Map<string, number>();
  private gameRank: number[] | null = null;
  private readonly order = new RowOrder((a, b) => this.compareRows(a, b));

  constructor({ fields, terms, counters = NO_COUNTERS }: ColumnStoreOptions) {
    this.fields = new FieldSet(fields);
    this.families = new Families(terms);
    this.source = counters;
    this.counters = new CounterColumns(counters.names, this.capacity);
    this.columns = new Map(
      fields.map((field) => [
        field.key,
        isWordKind(field.kind) ? new WordColumn(this.capacity) : new NumberColumn(this.capacity),
      ]),
    );
  }

  /** How many plays are in the store. */
  get size(): number {
    return this.rowOf.size;
  }

  /** Rows in use and not; part of what `evaluate` reads. */
  get rows(): number {
    return wordsFor(this.ids.length) * 32;
  }

  /** Call when terms were added, renamed or moved to another family. Renamed terms need their plays set again too. */
  setTerms(terms: readonly QuestionTerm[]): void {
    this.families = new Families(terms);
  }

  /** Puts a game in, or takes its new title, season or date to all of its plays. */
  setGame(game: GameRow): void {
    const index = this.indexOfGame(game.gameId);
    const before = this.games[index]!;
    this.games[index] = game;
    if (before.season !== game.season || before.date !== game.date) {
      this.gameRank = null;
      this.order.invalidate();
    }
    for (const row of this.rowOf.values()) {
      if (this.gameOf[row] === index) this.writeGame(row, game);
    }
  }

  /** Takes a game and its plays out. */
  removeGame(gameId: string): void {
    const index = this.gameAt.get(gameId);
    if (index === undefined) return;
    for (const [playId, row] of [...this.rowOf]) if (this.gameOf[row] === index) this.remove(playId);
  }

  /** Puts a play in, or takes its new values. */
  set(play: PlayRecord): void {
    const game = this.indexOfGame(play.gameId);
    const number = play.playNumber ?? Number.NEGATIVE_INFINITY;
    let row = this.rowOf.get(play.playId);
    if (row === undefined || this.gameOf[row] !== game || this.numberOf[row] !== number) {
      if (row === undefined) row = this.newRow(play.playId);
      else this.order.remove(row);
      this.gameOf[row] = game;
      this.numberOf[row] = number;
      this.order.add(row);
    }
    const gameRow = this.games[game]!;
    for (const field of this.fields.all) {
      const value = fieldValue(field, play, gameRow);
      const column = this.columns.get(field.key)!;
      if (column.kind === 'words') column.set(row, value as string | null);
      else column.set(row, value as number | null);
    }
    this.counters.set(row, this.source.facts(play));
  }

  remove(playId: string): void {
    const row = this.rowOf.get(playId);
    if (row === undefined) return;
    this.order.remove(row);
    this.rowOf.delete(playId);
    this.ids[row] = null;
    setBit(this.alive, row, false);
    for (const column of this.columns.values()) column.set(row, null);
    this.counters.clear(row);
    this.free.push(row);
  }

  /** How many plays a question finds. @throws ProblemError where the question doesn't fit the fields */
  count(question: Question): number {
    return countBits(this.found(question));
  }

  /**
   * The rows that a question finds, in the order of play; good until the next change of the store.
   * @throws ProblemError where the question doesn't fit the fields
   */
  select(question: Question): Int32Array {
    const found = this.found(question);
    const all = this.order.inOrder();
    const rows = new Int32Array(countBits(found));
    for (let i = 0, n = 0; n < rows.length; i++) if (hasBit(found, all[i]!)) rows[n++] = all[i]!;
    return rows;
  }

  /** The plays that a question finds, in the order of play. @throws ProblemError as `select` */
  playIds(question: Question): string[] {
    return this.idsOf(this.select(question));
  }

  /** Rows by columns over the plays that a question finds. @throws ProblemError as `select` */
  table(question: Question, request: TableRequest): CountedTable {
    return countTable(this.select(question), request, this);
  }

  /** How often each value of some fields occurs among the plays that a question finds. */
  facets(question: Question, fieldKeys: readonly string[]): FieldCounts[] {
    return countFields(this.select(question), fieldKeys, this);
  }

  /** What these plays add up to, in the order given; ids that are not in the store are left out. */
  countPlays(playIds: readonly string[], counters: readonly string[]): CountedGroup {
    const rows = playIds.map((id) => this.rowOf.get(id)).filter((row) => row !== undefined);
    return countTable(Int32Array.from(rows), { rows: [], counters }, this).total;
  }

  /** A play's value of a field as the columns keep it; null where it or the play is missing. */
  valueOf(playId: string, fieldKey: string): string | number | null {
    const row = this.rowOf.get(playId);
    return row === undefined ? null : this.fieldOf(fieldKey).column.get(row);
  }

  idsOf(rows: Int32Array): string[] {
    const ids = new Array<string>(rows.length);
    for (let i = 0; i < rows.length; i++) ids[i] = this.ids[rows[i]!]!;
    return ids;
  }

  fieldOf(key: string): { field: FieldDefinition; column: Column } {
    const field = this.fields.get(key);
    const column = this.columns.get(key);
    if (!field || !column) throw new Error(`There is no field ${key}.`);
    return { field, column };
  }

  private found(question: Question): Int32Array {
    const { yes } = evaluate(question, this);
    return yes.map((word, w) => word & this.alive[w]!);
  }

  private newRow(playId: string): number {
    const row = this.free.pop() ?? this.ids.length;
    if (row >= this.capacity) this.grow();
    this.ids[row] = playId;
    this.rowOf.set(playId, row);
    setBit(this.alive, row, true);
    return row;
  }

  private grow(): void {
    this.capacity *= 2;
    for (const column of this.columns.values()) column.grow(this.capacity);
    this.counters.grow(this.capacity);
    const { alive, gameOf, numberOf } = this;
    this.alive = new Int32Array(wordsFor(this.capacity));
    this.alive.set(alive);
    this.gameOf = new Int32Array(this.capacity);
    this.gameOf.set(gameOf);
    this.numberOf = new Float64Array(this.capacity);
    this.numberOf.set(numberOf);
  }

  private indexOfGame(gameId: string): number {
    let index = this.gameAt.get(gameId);
    if (index === undefined) {
      index = this.games.push({ gameId, title: null, season: null, date: null }) - 1;
      this.gameAt.set(gameId, index);
      this.gameRank = null;
    }
    return index;
  }

  private writeGame(row: number, game: GameRow): void {
    for (const field of this.fields.all) {
      if (field.home !== 'game') continue;
      const column = this.columns.get(field.key)!;
      const value = fieldValue(field, null, game);
      if (column.kind === 'words') column.set(row, value as string | null);
      else column.set(row, value as number | null);
    }
  }

  private compareRows(a: number, b: number): number {
    const gameA = this.gameOf[a]!;
    const gameB = this.gameOf[b]!;
    if (gameA !== gameB) {
      this.gameRank ??= rankGames(this.games);
      return this.gameRank[gameA]! - this.gameRank[gameB]!;
    }
    // a missing number is minus infinity, which can't be subtracted from itself
    const numberA = this.numberOf[a]!;
    const numberB = this.numberOf[b]!;
    if (numberA !== numberB) return numberA < numberB ? -1 : 1;
    return this.ids[a]! < this.ids[b]! ? -1 : 1;
  }
}

function rankGames(games: readonly GameRow[]): number[] {
  const order = games.map((_, index) => index).sort((a, b) => compareGames(games[a]!, games[b]!));
  const ranks = new Array<number>(games.length);
  for (const [rank, index] of order.entries()) ranks[index] = rank;
  return ranks;
}

function compareGames(a: GameRow, b: GameRow): number {
  if (a.season !== b.season)
    return (a.season ?? Number.NEGATIVE_INFINITY) < (b.season ?? Number.NEGATIVE_INFINITY) ? -1 : 1;
  const dateA = a.date ?? '';
  const dateB = b.date ?? '';
  if (dateA !== dateB) return dateA < dateB ? -1 : 1;
  return a.gameId < b.gameId ? -1 : 1;
}
