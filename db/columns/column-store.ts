/**
 * Every play's fields in typed columns, for answers while the question is still warm. It is a cache of the library:
 * whoever commits an edit sets the plays it changed, and SQLite gives the same answers (db/question).
 */

import type { PlayRecord } from '../../football/play.ts';
import type { Question } from '../../football/question/ast.ts';
import { FieldSet } from '../../football/question/fieldset.ts';
import { splitStep } from '../../football/question/neighbour.ts';
import { Families, type QuestionTerm } from '../../football/question/vocabulary.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import {
  DEFAULT_SITUATION_LIMITS,
  type SituationLimits,
} from '../../football/vocabulary/situation-limits.ts';
import { Column } from './column.ts';
import { CounterColumns, type CounterSource } from './counters.ts';
import { evaluate } from './evaluate.ts';
import { countFields, type FieldCounts } from './facets.ts';
import { GameOrder } from './game-order.ts';
import { Neighbours } from './neighbours.ts';
import { RowOrder } from './order.ts';
import { PlayRows } from './play-rows.ts';
import { FieldValues, type GameRow, isWordKind } from './play-values.ts';
import { type CountedGroup, type CountedTable, countTable, type TableRequest } from './table.ts';
import { countBits, hasBit, placesOf, setBit, wordsFor } from './truth.ts';

export interface ColumnStoreOptions {
  /** with the saved questions that a question may name, where it is a set */
  readonly fields: readonly FieldDefinition[] | FieldSet;
  readonly terms: readonly QuestionTerm[];
  /** what tables add up; none when not given */
  readonly counters?: CounterSource<PlayRecord>;
  readonly limits?: SituationLimits;
}

/** What a store is made of, for whoever keeps it between two sessions. */
export interface StoreParts {
  readonly rows: PlayRows;
  readonly games: readonly GameRow[];
  readonly gameOf: Int32Array;
  readonly numberOf: Float64Array;
  readonly column: (key: string) => Column;
  readonly counters: CounterColumns;
  readonly neighbours: Neighbours;
}

const NO_COUNTERS: CounterSource<PlayRecord> = { names: [], facts: () => [] };
const FIRST_CAPACITY = 256;

export class ColumnStore {
  fields: FieldSet;
  counters: CounterColumns;
  families: Families;
  private readonly source: CounterSource<PlayRecord>;
  private readonly values: FieldValues;
  private capacity = FIRST_CAPACITY;
  private plays = new PlayRows(FIRST_CAPACITY);
  /** of each row: the index of its game, and the play's number within it */
  private gameOf: Int32Array = new Int32Array(FIRST_CAPACITY);
  private numberOf: Float64Array = new Float64Array(FIRST_CAPACITY);
  private readonly known = new Map<string, Column>();
  private kept: ((key: string) => Column) | null = null;
  /** columns of the play before or after, made when asked for and good until the next change */
  private readonly shifted = new Map<string, Column>();
  private readonly games = new GameOrder();
  private neighbours = new Neighbours(FIRST_CAPACITY);
  private readonly order = new RowOrder((a, b) => this.compareRows(a, b));

  constructor({ fields, terms, counters = NO_COUNTERS, limits }: ColumnStoreOptions) {
    this.fields = FieldSet.of(fields);
    this.families = new Families(terms);
    this.source = counters;
    this.values = new FieldValues(limits ?? DEFAULT_SITUATION_LIMITS, counters.names);
    this.counters = new CounterColumns(counters.names, FIRST_CAPACITY);
  }

  /** Takes in what was kept, into a store that has no plays yet. */
  adopt(parts: StoreParts): void {
    this.plays = parts.rows;
    this.capacity = parts.gameOf.length;
    this.gameOf = parts.gameOf;
    this.numberOf = parts.numberOf;
    for (const game of parts.games) this.games.put(game);
    this.counters = parts.counters;
    this.neighbours = parts.neighbours;
    this.known.clear();
    this.kept = parts.column;
    this.order.adopt(this.plays.length);
  }

  /** What the store is made of, with rows as they are; settled, so that it can be kept. */
  parts(): Omit<StoreParts, 'column'> & { readonly order: Int32Array } {
    this.settle();
    const { plays: rows, gameOf, numberOf, counters, neighbours } = this;
    return {
      rows,
      games: this.games.all,
      gameOf,
      numberOf,
      counters,
      neighbours,
      order: this.order.inOrder(),
    };
  }

  /** How many plays are in the store. */
  get size(): number {
    return this.plays.size;
  }

  /** Rows in use and not; part of what `evaluate` reads. */
  get rows(): number {
    return wordsFor(this.plays.length) * 32;
  }

  /** Call when saved questions changed. The fields themselves must be the same. */
  setFields(fields: FieldSet): void {
    this.fields = fields;
  }

  /** Call when terms were added, renamed or moved to another family. Renamed terms need their plays set again too. */
  setTerms(terms: readonly QuestionTerm[]): void {
    this.families = new Families(terms);
  }

  /** Puts a game in, or takes its new title, season or date to all of its plays. */
  setGame(game: GameRow): void {
    const { index, moved } = this.games.put(game);
    if (moved) this.order.invalidate();
    for (const row of this.rowsOfGame(index)) this.writeGame(row, game);
  }

  /** Takes a game and its plays out. */
  removeGame(gameId: string): void {
    const index = this.games.indexOf(gameId);
    if (index === undefined) return;
    for (const row of this.rowsOfGame(index).slice()) this.remove(this.plays.idOf(row));
  }

  /** Puts a play in, or takes its new values. */
  set(play: PlayRecord): void {
    const game = this.games.indexFor(play.gameId);
    const number = play.playNumber ?? Number.NEGATIVE_INFINITY;
    let row = this.plays.get(play.playId);
    const isNew = row === undefined;
    const moves = row === undefined || this.gameOf[row] !== game || this.numberOf[row] !== number;
    if (row === undefined) row = this.newRow(play.playId);
    else if (moves) {
      this.order.remove(row);
      this.neighbours.touch(this.gameOf[row]!);
    }
    const drive = isNew ? null : this.driveOf(row);
    const counted = isNew ? false : this.countsInDrive(row);
    if (moves) {
      this.gameOf[row] = game;
      this.numberOf[row] = number;
      this.order.add(row);
    }
    const facts = this.source.facts(play);
    const gameRow = this.games.all[game]!;
    for (const field of this.fields.all) {
      if (field.key === 'drivePlay') continue;
      this.columnOf(field.key).set(row, this.values.of(field, play, gameRow, facts));
    }
    this.counters.set(row, facts);
    this.shifted.clear();
    if (moves || drive !== this.driveOf(row) || counted !== this.countsInDrive(row)) {
      this.neighbours.touch(game);
    }
  }

  remove(playId: string): void {
    const row = this.plays.get(playId);
    if (row === undefined) return;
    this.order.remove(row);
    this.neighbours.touch(this.gameOf[row]!);
    this.neighbours.clear(row);
    this.plays.remove(playId, row);
    for (const field of this.fields.all) this.columnOf(field.key).set(row, null);
    this.counters.clear(row);
    this.shifted.clear();
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
    return this.rowsIn(this.found(question));
  }

  /** A bit for each row that a question finds. @throws ProblemError as `select` */
  found(question: Question): Int32Array {
    this.settle();
    const { yes } = evaluate(question, this);
    const found = new Int32Array(yes.length);
    const { alive } = this.plays;
    for (let w = 0; w < found.length; w++) found[w] = yes[w]! & alive[w]!;
    return found;
  }

  /** The rows of a bitmap in the order of play. */
  rowsIn(found: Int32Array): Int32Array {
    const count = countBits(found);
    const all = this.order.inOrder();
    if (this.order.isRising) return placesOf(found, count);
    const rows = new Int32Array(count);
    for (let i = 0, n = 0; n < count; i++) if (hasBit(found, all[i]!)) rows[n++] = all[i]!;
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
    return countFields(this.found(question), fieldKeys, this);
  }

  /** What these plays add up to, in the order given; ids that are not in the store are left out. */
  countPlays(playIds: readonly string[], counters: readonly string[]): CountedGroup {
    const rows = playIds.map((id) => this.plays.get(id)).filter((row) => row !== undefined);
    return countTable(Int32Array.from(rows), { rows: [], counters }, this).total;
  }

  /** A play's value of a field as the columns keep it; null where it or the play is missing. */
  valueOf(playId: string, fieldKey: string): string | number | null {
    const row = this.plays.get(playId);
    return row === undefined ? null : this.fieldOf(fieldKey).column.get(row);
  }

  idsOf(rows: Int32Array): string[] {
    const ids = new Array<string>(rows.length);
    for (let i = 0; i < rows.length; i++) ids[i] = this.plays.idOf(rows[i]!);
    return ids;
  }

  /** A field and its column, those of the play before or after too. @throws Error where there is no such field */
  fieldOf(key: string): { field: FieldDefinition; column: Column } {
    this.settle();
    const field = this.fields.get(key);
    if (!field) throw new Error(`There is no field ${key}.`);
    return { field, column: this.columnOf(key) };
  }

  /** Part of what `evaluate` reads. */
  columnOf(key: string): Column {
    const known = this.known.get(key) ?? this.shifted.get(key);
    if (known) return known;
    const { step, key: plain } = splitStep(key);
    const own = this.fields.all.find((field) => field.key === key);
    if (!own && step !== null) {
      const made = this.columnOf(plain).shifted(this.neighbours[step]);
      this.shifted.set(key, made);
      return made;
    }
    if (!own) throw new Error(`There is no column of ${key}.`);
    const column = this.kept?.(key) ?? new Column(isWordKind(own.kind) ? 'words' : 'numbers', this.capacity);
    this.known.set(key, column);
    return column;
  }

  /** Brings what hangs together between plays in step, after changes and before an answer. */
  private settle(): void {
    const numbers = this.fields.get('drivePlay') ? this.columnOf('drivePlay') : null;
    const isStale = this.neighbours.settle({
      rowsOfGame: (game) => this.rowsOfGame(game),
      driveOf: (row) => this.driveOf(row),
      counts: (row) => this.countsInDrive(row),
      number: (row, number) => numbers?.set(row, number || null),
    });
    if (isStale) this.shifted.clear();
  }

  private driveOf(row: number): number | null {
    return this.fields.get('drive') ? (this.columnOf('drive').get(row) as number | null) : null;
  }

  private countsInDrive(row: number): boolean {
    const kind = this.fields.get('playKind') ? this.columnOf('playKind').get(row) : null;
    return kind !== 'try' && kind !== 'kickoff';
  }

  /** Rows of a game in the order of play. */
  private rowsOfGame(game: number): Int32Array {
    return this.order.between((row) => this.games.compare(this.gameOf[row]!, game));
  }

  private newRow(playId: string): number {
    const row = this.plays.add(playId);
    if (row >= this.capacity) this.grow();
    setBit(this.plays.alive, row, true);
    return row;
  }

  private grow(): void {
    for (const field of this.fields.all) this.columnOf(field.key);
    this.capacity *= 2;
    for (const column of this.known.values()) column.grow(this.capacity);
    this.shifted.clear();
    this.counters.grow(this.capacity);
    this.plays.grow(this.capacity);
    this.neighbours.grow(this.capacity);
    const { gameOf, numberOf } = this;
    this.gameOf = new Int32Array(this.capacity);
    this.gameOf.set(gameOf);
    this.numberOf = new Float64Array(this.capacity);
    this.numberOf.set(numberOf);
  }

  private writeGame(row: number, game: GameRow): void {
    for (const field of this.fields.all) {
      if (field.home === 'game') this.columnOf(field.key).set(row, this.values.of(field, null, game, []));
    }
  }

  private compareRows(a: number, b: number): number {
    const gameA = this.gameOf[a]!;
    const gameB = this.gameOf[b]!;
    if (gameA !== gameB) return this.games.compare(gameA, gameB);
    // a missing number is minus infinity, which can't be subtracted from itself
    const numberA = this.numberOf[a]!;
    const numberB = this.numberOf[b]!;
    if (numberA !== numberB) return numberA < numberB ? -1 : 1;
    return this.plays.idOf(a) < this.plays.idOf(b) ? -1 : 1;
  }
}
