import { type CellPlace, placeName } from './cell-cursor.ts';
import { metricInWords, plays } from './cell-words.ts';
import { startsGroup } from './TableBody.tsx';
import classes from './table.module.css';
import type { ShownMetric, TableLayout, TableSort } from './table-layout.ts';

interface TableHeadProps {
  readonly layout: TableLayout;
  readonly rowName: string;
  readonly sort: TableSort;
  readonly at: CellPlace;
  readonly settingWords: (metric: ShownMetric) => string;
}

/** Two lines of heads: the column field's values, whose plays open; under them the metrics, by which it sorts. */
export function TableHead({ layout, rowName, sort, at, settingWords }: TableHeadProps) {
  const tabIndex = (row: number, column: number) => (at.row === row && at.column === column ? 0 : -1);
  return (
    <thead>
      {layout.groups.length > 0 && (
        <tr className={classes.groups}>
          <td className={classes.corner} />
          {layout.groups.map((group, i) => (
            <th
              key={group.id}
              scope="colgroup"
              colSpan={group.columns}
              data-cell={placeName({ row: -2, column: i * group.columns })}
              tabIndex={tabIndex(-2, i * group.columns)}
              title={`Play ${plays(group.plays)}`}
              className={i > 0 ? classes.groupStart : undefined}
            >
              {group.label} <span className={classes.rowCount}>{group.plays}</span>
            </th>
          ))}
        </tr>
      )}
      <tr className={classes.metrics}>
        <th
          scope="col"
          data-cell={placeName({ row: -1, column: -1 })}
          tabIndex={tabIndex(-1, -1)}
          aria-sort={ariaSort(sort, 'key')}
          title="Sort by the name"
          className={classes.corner}
        >
          {rowName}
          <SortMark sort={sort} by="key" />
        </th>
        {layout.columns.map((column, i) => (
          <th
            key={column.id}
            scope="col"
            data-cell={placeName({ row: -1, column: i })}
            tabIndex={tabIndex(-1, i)}
            aria-sort={ariaSort(sort, column.id)}
            title={metricInWords(column.metric, settingWords(column.metric))}
            className={startsGroup(layout.columns, i) ? classes.groupStart : undefined}
          >
            {column.metric.name}
            <SortMark sort={sort} by={column.id} />
          </th>
        ))}
      </tr>
    </thead>
  );
}

function ariaSort(sort: TableSort, by: string): 'ascending' | 'descending' | 'none' {
  if (sort.by !== by) return 'none';
  return sort.down ? 'descending' : 'ascending';
}

function SortMark({ sort, by }: { readonly sort: TableSort; readonly by: string }) {
  if (sort.by !== by) return null;
  return <span aria-hidden="true"> {sort.down ? '▾' : '▴'}</span>;
}
