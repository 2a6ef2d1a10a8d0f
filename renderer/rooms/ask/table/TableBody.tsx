import { memo } from 'react';
import { type CellPlace, placeName } from './cell-cursor.ts';
import { cellInWords, plays } from './cell-words.ts';
import classes from './table.module.css';
import type { GridColumn, GridRow } from './table-layout.ts';

interface TableBodyProps {
  readonly rows: readonly GridRow[];
  readonly columns: readonly GridColumn[];
  readonly at: CellPlace;
}

export function TableBody({ rows, columns, at }: TableBodyProps) {
  return (
    <tbody>
      {rows.map((row, index) => (
        <BodyRow
          key={row.id}
          row={row}
          index={index}
          columns={columns}
          column={at.row === index ? at.column : null}
        />
      ))}
    </tbody>
  );
}

interface BodyRowProps {
  readonly row: GridRow;
  readonly index: number;
  readonly columns: readonly GridColumn[];
  /** the column the keyboard stands on, null where it stands in another row */
  readonly column: number | null;
}

const BodyRow = memo(function BodyRow({ row, index, columns, column }: BodyRowProps) {
  return (
    <tr className={row.id === 'total' ? classes.totalRow : undefined}>
      <th
        scope="row"
        data-cell={placeName({ row: index, column: -1 })}
        tabIndex={column === -1 ? 0 : -1}
        title={`Play ${plays(row.playIds.length)}`}
        className={row.key === null && row.id !== 'total' ? classes.untagged : undefined}
      >
        <span className={classes.rowName}>{row.label}</span>
        <span className={classes.rowCount}>{row.playIds.length}</span>
      </th>
      {row.cells.map((cell, i) => {
        const here = columns[i]!;
        return (
          <td
            key={here.id}
            data-cell={placeName({ row: index, column: i })}
            tabIndex={column === i ? 0 : -1}
            title={cellInWords(here.metric, cell)}
            className={cellClass(cell.small, startsGroup(columns, i))}
          >
            {cell.text}
            {cell.small && <SmallMark />}
          </td>
        );
      })}
    </tr>
  );
});

/** Too few plays to lean on: a mark, paler ink, and the word for those who do not see either. */
function SmallMark() {
  return (
    <>
      <span className={classes.smallMark} aria-hidden="true">
        *
      </span>
      <span className="unseen"> few plays</span>
    </>
  );
}

function cellClass(small: boolean, starts: boolean): string | undefined {
  const names = [small ? classes.small : '', starts ? classes.groupStart : ''].filter(Boolean);
  return names.length > 0 ? names.join(' ') : undefined;
}

/** Whether another value of the column field begins here. */
export function startsGroup(columns: readonly GridColumn[], i: number): boolean {
  const [before, here] = [columns[i - 1], columns[i]];
  return before !== undefined && (before.col !== here?.col || before.total !== here?.total);
}
