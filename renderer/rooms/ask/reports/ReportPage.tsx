import type { Report, ReportCell, ReportTable } from '../../../../football/report/report.ts';
import { showPlays } from '../../../state/showing.ts';
import classes from './reports.module.css';

/** The report on screen: every number opens its film. */
export function ReportPage({ report }: { readonly report: Report }) {
  return (
    // a region that scrolls has to be reachable by keyboard
    // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys scroll it
    <section className={classes.page} aria-label={report.title} tabIndex={0} data-print-flow>
      <h2>{report.title}</h2>
      <p className={classes.note}>
        {report.plays === 1 ? '1 play' : `${report.plays} plays`} · {report.games.join(', ') || 'no games'} ·
        template {report.template} · made {report.made}
      </p>
      {report.cautions.map((caution) => (
        <p key={caution} className={classes.note}>
          {caution}
        </p>
      ))}
      {report.sections.map((section) => (
        <section key={section.key} aria-label={section.title}>
          <h3>
            <Cell
              cell={{ text: section.title, playIds: section.playIds }}
              title={`${report.team}: ${section.title}`}
            />
          </h3>
          <p className={classes.note}>{section.empty ?? section.note}</p>
          {section.tables.map((table) => (
            <Table key={table.caption} table={table} title={section.title} />
          ))}
        </section>
      ))}
    </section>
  );
}

function Table({ table, title }: { readonly table: ReportTable; readonly title: string }) {
  const name = (row: readonly ReportCell[], at: number) =>
    [title, table.caption, row[0]?.text, table.columns[at]].filter(Boolean).join(', ');
  return (
    <table className={classes.table}>
      {table.caption !== null && <caption>{table.caption}</caption>}
      <thead>
        <tr>
          {table.columns.map((column) =>
            column === '' ? (
              <td key="head" />
            ) : (
              <th key={column} scope="col">
                {column}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row, r) => (
          // two rows may say the same; their place tells them apart
          <tr key={r}>
            {row.map((cell, at) =>
              at === 0 ? (
                <th key="head" scope="row">
                  <Cell cell={cell} title={name(row, at)} />
                </th>
              ) : (
                <td
                  key={table.columns[at]}
                  className={cell.playIds === null ? (classes.word ?? '') : undefined}
                >
                  <Cell cell={cell} title={name(row, at)} />
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cell({ cell, title }: { readonly cell: ReportCell; readonly title: string }) {
  const text = cell.small ? `${cell.text} *` : cell.text;
  const { playIds } = cell;
  return (
    <>
      {playIds && playIds.length > 0 ? (
        <button
          type="button"
          className={classes.number}
          title={`${title}: film of ${playIds.length === 1 ? '1 play' : `${playIds.length} plays`}`}
          onClick={() => showPlays({ title, playIds })}
        >
          {text}
        </button>
      ) : (
        text
      )}
      {cell.detail !== undefined && <span className={classes.detail}>{cell.detail}</span>}
    </>
  );
}
