import { memo } from 'react';
import { type CellPlace, placeName } from './cell-cursor.ts';
import { cellInWords, differenceText, plays } from './cell-words.ts';
import classes from './table.module.css';
import type { GridColumn, GridRow } from './table-layout.ts';

interface TableBodyProps {
  readonly rows: readonly GridRow[];
  readonly columns: readonly GridColumn[];
  readonly at: CellPlace;
  /** how many row fields there are */
  readonly depth: number;
  readonly pinned: readonly string[];
  readonly baseline: string;
}

export function TableBody({ rows, columns, at, depth, pinned, baseline }: TableBodyProps) {
  return (
    <tbody>
      {rows.map((row, index) => (
        <BodyRow
          key={row.id}
          row={row}
          index={index}
          columns={columns}
          depth={depth}
          isPinned={pinned.includes(row.id)}
          baseline={baseline}
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
  readonly depth: number;
  readonly isPinned: boolean;
  readonly baseline: string;
}

const BodyRow = memo(function BodyRow({
  row,
  index,
  columns,
  column,
  depth,
  isPinned,
  baseline,
}: BodyRowProps) {
  return (
    <tr
      className={
        row.key.length === 0 ? classes.totalRow : row.key.length < depth ? classes.subtotal : undefined
      }
    >
      <th
        scope="row"
        data-cell={placeName({ row: index, column: -1 })}
        tabIndex={column === -1 ? 0 : -1}
        title={`Play ${plays(row.plays)}`}
        className={row.key.length > 0 && row.key.at(-1) === null ? classes.untagged : undefined}
      >
        <span
          className={classes.rowName}
          style={{ paddingLeft: `${Math.max(0, row.key.length - 1) * 16}px` }}
        >
          {row.label}
        </span>
        {isPinned && (
          <span title="Pinned">
            {' '}
            ▲<span className="unseen"> pinned</span>
          </span>
        )}
        <span className={classes.rowCount}>{row.plays}</span>
      </th>
      {row.cells.map((cell, i) => {
        const here = columns[i]!;
        return (
          <td
            key={here.id}
            data-cell={placeName({ row: index, column: i })}
            tabIndex={column === i ? 0 : -1}
            title={cellInWords(here.metric, cell, baseline)}
            data-heat={cell.heat ?? undefined}
            className={cellClass(cell.small, startsGroup(columns, i))}
          >
            {cell.heat !== null && <HeatMark heat={cell.heat} />}
            {cell.text}
            {cell.small && <SmallMark />}
            {cell.difference !== null && (
              <span className={classes.difference}>{differenceText(here.metric, cell.difference)}</span>
            )}
          </td>
        );
      })}
    </tr>
  );
});

const HEAT_BARS = ['▁', '▂', '▄', '▆', '█'];
const FIFTHS = ['lowest', 'second', 'middle', 'fourth', 'highest'];

/** The fifth of its column: a bar whose height says it without colour and on paper. */
function HeatMark({ heat }: { readonly heat: number }) {
  return (
    <>
      <span className={classes.heatMark} aria-hidden="true">
        {HEAT_BARS[heat - 1]}
      </span>
      <span className="unseen">{FIFTHS[heat - 1]} fifth: </span>
    </>
  );
}

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
  return before !== undefined && before.col !== here?.col;
}
