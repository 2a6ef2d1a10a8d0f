/** Counted tables: what each group of plays adds up to, and exactly which plays it is made of. */

import type { CounterColumns } from './counters.ts';
import {
  type Axis,
  axisOf,
  cross,
  type GroupBy,
  type GroupSource,
  type GroupValue,
  splitRows,
} from './group.ts';

export interface CountedGroup {
  readonly plays: number;
  /** in the order of the table's `counters` */
  readonly sums: Float64Array;
  /** in the order of play; listed when first read, so ask before the columns change */
  readonly playIds: readonly string[];
}

export interface CountedRow extends CountedGroup {
  readonly key: readonly GroupValue[];
}

export interface CountedCell extends CountedGroup {
  readonly row: readonly GroupValue[];
  readonly col: readonly GroupValue[];
}

export interface CountedTable {
  readonly counters: readonly string[];
  /** only cells with plays in them; by row, then by column */
  readonly cells: readonly CountedCell[];
  readonly rows: readonly CountedRow[];
  readonly cols: readonly CountedRow[];
  readonly total: CountedGroup;
}

export interface TableSource extends GroupSource {
  readonly counters: CounterColumns;
  idsOf(rows: Int32Array): string[];
}

export interface TableRequest {
  readonly rows: readonly GroupBy[];
  readonly cols?: readonly GroupBy[];
  /** the counters to add up; all when not given */
  readonly counters?: readonly string[];
}

/** @param rows rows of the columns, in the order of play */
export function countTable(rows: Int32Array, request: TableRequest, source: TableSource): CountedTable {
  const counters = request.counters ?? source.counters.names;
  const wanted = counters.map((name) => {
    const at = source.counters.names.indexOf(name);
    if (at < 0) throw new Error(`There is no counter ${name}.`);
    return at;
  });
  const rowAxis = axisOf(rows, request.rows, source);
  const colAxis = axisOf(rows, request.cols ?? [], source);
  const both = cross(rowAxis, colAxis);
  const one: Axis = { groupOf: new Int32Array(rows.length), keys: [[]] };
  const width = wanted.length;
  const cellSums = source.counters.sums(rows, both.groupOf, both.keys.length, wanted);
  const groupsOf = (axis: Axis) => {
    const sums = axis === both ? cellSums : sumsOfCells(cellSums, both, axis, width);
    const members = new Members(rows, axis, source);
    return Array.from(members.counts, (plays, group) => ({
      plays,
      sums: sums.subarray(group * width, (group + 1) * width),
      members,
      group,
    }));
  };
  const keyed = (axis: Axis) => groupsOf(axis).map((g, i): CountedRow => listed(g, { key: axis.keys[i]! }));
  const depth = request.rows.length;
  return {
    counters,
    cells: groupsOf(both).map((g, i) =>
      listed(g, { row: both.keys[i]!.slice(0, depth), col: both.keys[i]!.slice(depth) }),
    ),
    rows: keyed(rowAxis),
    cols: keyed(colAxis),
    total: listed(groupsOf(one)[0]!, {}),
  };
}

/** Who is in which group of an axis; sorted out when it is first asked, because most tables are only looked at. */
class Members {
  readonly counts: Int32Array;
  private split: readonly Int32Array[] | null = null;

  constructor(
    private readonly rows: Int32Array,
    private readonly axis: Axis,
    private readonly source: TableSource,
  ) {
    this.counts = new Int32Array(axis.keys.length);
    for (const group of axis.groupOf) this.counts[group] = this.counts[group]! + 1;
  }

  idsOf(group: number): readonly string[] {
    this.split ??= splitRows(this.rows, this.axis.groupOf, this.axis.keys.length);
    return this.source.idsOf(this.split[group]!);
  }
}

interface Group {
  readonly plays: number;
  readonly sums: Float64Array;
  readonly members: Members;
  readonly group: number;
}

/** A group whose plays are listed when somebody asks for them. */
function listed<K extends object>({ plays, sums, members, group }: Group, keys: K): K & CountedGroup {
  let playIds: readonly string[] | null = null;
  return {
    ...keys,
    plays,
    sums,
    get playIds() {
      playIds ??= members.idsOf(group);
      return playIds;
    },
  };
}

/** Every play is in one cell, so the sums of a row, a column or all are sums of cells. */
function sumsOfCells(cellSums: Float64Array, cells: Axis, axis: Axis, width: number): Float64Array {
  const groupOfCell = new Int32Array(cells.keys.length);
  for (let i = 0; i < axis.groupOf.length; i++) groupOfCell[cells.groupOf[i]!] = axis.groupOf[i]!;
  const sums = new Float64Array(axis.keys.length * width);
  for (let cell = 0; cell < groupOfCell.length; cell++) {
    const at = groupOfCell[cell]! * width;
    for (let c = 0; c < width; c++) sums[at + c] = sums[at + c]! + cellSums[cell * width + c]!;
  }
  return sums;
}
