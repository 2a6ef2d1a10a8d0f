import { type KeyboardEvent, type MouseEvent, useMemo, useRef, useState } from 'react';
import { type CellPlace, moveCursor, placeName, placeOf } from './cell-cursor.ts';
import { TableBody } from './TableBody.tsx';
import { TableHead } from './TableHead.tsx';
import classes from './table.module.css';
import { nextSort, type ShownMetric, type TableLayout, type TableSort } from './table-layout.ts';
import { pickAt, placeInWords, type TablePick } from './table-pick.ts';

export interface EfficiencyTableProps {
  readonly layout: TableLayout;
  readonly rowName: string;
  readonly caption: string;
  /** how many row fields there are */
  readonly depth: number;
  readonly pinned: readonly string[];
  /** what differences are taken to, in words */
  readonly baseline: string;
  readonly sort: TableSort;
  readonly onSort: (sort: TableSort) => void;
  readonly onPlay: (pick: TablePick) => void;
  /** the place that the keyboard or the last click stands on */
  readonly onStand?: (pick: TablePick | null) => void;
  /** the staff's choice that a metric depends on, empty where there is none */
  readonly settingWords?: (metric: ShownMetric) => string;
}

/** Rows beyond this are drawn only when asked for: a table of a thousand rows is no table to read. */
const FIRST_ROWS = 200;
const NO_WORDS = () => '';

/** The efficiency table: a grid that arrow keys walk through, in which every number opens its plays. */
export function EfficiencyTable(props: EfficiencyTableProps) {
  const { layout, rowName, sort, settingWords = NO_WORDS } = props;
  const [place, setPlace] = useState<CellPlace>({ row: 0, column: 0 });
  const [hovered, setHovered] = useState<CellPlace | null>(null);
  const [everyRow, setEveryRow] = useState(false);
  const table = useRef<HTMLTableElement>(null);

  const rows = useMemo(
    () => [...(everyRow ? layout.rows : layout.rows.slice(0, FIRST_ROWS)), layout.total],
    [everyRow, layout.rows, layout.total],
  );
  const size = {
    rows: rows.length,
    columns: layout.columns.length,
    groupWidth: layout.groups[0]?.columns ?? 0,
  };
  // a smaller table than the last one keeps the keyboard inside it
  const at: CellPlace = {
    row: Math.max(size.groupWidth > 0 ? -2 : -1, Math.min(place.row, size.rows - 1)),
    column: Math.min(place.column, size.columns - 1),
  };

  const stand = (next: CellPlace) => {
    setPlace(next);
    props.onStand?.(pickAt(layout, rows, next, rowName));
  };

  const act = (where: CellPlace) => {
    stand(where);
    if (where.row === -1) {
      props.onSort(nextSort(sort, layout.columns[where.column]?.id ?? 'key'));
      return;
    }
    const pick = pickAt(layout, rows, where, rowName);
    if (pick) props.onPlay(pick);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.altKey || event.metaKey) return;
    const next = moveCursor(at, event, size);
    const acts = (event.key === 'Enter' && !event.shiftKey) || (event.key === ' ' && at.row === -1);
    if (!next && !acts) return;
    event.preventDefault();
    event.stopPropagation();
    if (!next) return act(at);
    stand(next);
    const cell = table.current?.querySelector<HTMLElement>(`[data-cell="${placeName(next)}"]`);
    cell?.focus({ preventScroll: true });
    cell?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  };

  const onClick = (event: MouseEvent) => {
    const where = placeOf(event.target as Element);
    if (where) act(where);
  };

  return (
    <div className={classes.panel} data-print-flow>
      <div className={classes.scroll} data-print-flow>
        <table
          ref={table}
          data-keys="ask-table"
          className={classes.table}
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: arrow keys walk through its cells, which makes it a grid
          role="grid"
          aria-label={props.caption}
          onKeyDown={onKeyDown}
          onClick={onClick}
          onMouseOver={(event) => setHovered(placeOf(event.target as Element))}
          onMouseLeave={() => setHovered(null)}
          onFocus={() => {
            setHovered(null);
            props.onStand?.(pickAt(layout, rows, at, rowName));
          }}
        >
          <TableHead layout={layout} rowName={rowName} sort={sort} at={at} settingWords={settingWords} />
          <TableBody
            rows={rows}
            columns={layout.columns}
            at={at}
            depth={props.depth}
            pinned={props.pinned}
            baseline={props.baseline}
          />
        </table>
      </div>
      <p className={classes.reading}>
        {placeInWords(layout, rows, hovered ?? at, settingWords, props.baseline)}
      </p>
      {rows.length - 1 < layout.rows.length && (
        <button type="button" className={classes.moreRows} onClick={() => setEveryRow(true)}>
          {rows.length - 1} of {layout.rows.length} rows shown. Show all
        </button>
      )}
    </div>
  );
}
