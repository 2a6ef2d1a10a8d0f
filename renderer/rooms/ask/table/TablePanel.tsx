import { useMemo, useRef } from 'react';
import type { PivotRequest } from '../../../../electron/service/pivot-views.ts';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import { metricOf } from '../../../../football/metrics/definitions.ts';
import { settingInWords } from '../../../../football/metrics/settings.ts';
import { keyLabel } from '../../../../football/vocabulary/key-label.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { problemFrom } from '../../../service/http.ts';
import { tellDone, tellProblem } from '../../../service/problems.ts';
import { useMetrics, usePivot } from '../../../service/queries.ts';
import { questionCalls } from '../../../service/question-calls.ts';
import { useStore } from '../../../state/store.ts';
import { NothingFound } from '../answer/NothingFound.tsx';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { playMetric } from '../play-metric.ts';
import { type CellSide, cellQuestion } from './cell-question.ts';
import { tableToCopy } from './clipboard.ts';
import { EfficiencyTable } from './EfficiencyTable.tsx';
import { TableBar } from './TableBar.tsx';
import { layTable, type ShownMetric, type TableKey } from './table-layout.ts';
import type { TablePick } from './table-pick.ts';

/** The answer as a table, and the choices that make it. */
export function TablePanel({ vocabulary }: { readonly vocabulary: VocabularyView }) {
  const { question, table, sort } = useStore(askStore);
  const { data: known = [] } = useMetrics();
  const chosen = table.cols.length === 0 ? table.metrics : table.crossMetrics;
  const metrics = useMemo(
    () => chosen.flatMap((key) => known.filter((metric) => metric.key === key)),
    [chosen, known],
  );
  const request: PivotRequest = {
    where: question.where,
    rows: table.rows,
    cols: table.cols,
    metrics: metrics.map((metric) => metric.key),
    families: table.families,
    baseline: table.baseline,
  };
  const { data: view, error } = usePivot(metrics.length === 0 ? null : request);
  const standing = useRef<TablePick | null>(null);
  const fields = useMemo(() => new Map(vocabulary.fields.map((field) => [field.key, field])), [vocabulary]);
  const nameOf = (key: string) => fields.get(key)?.label ?? key;
  const rowName = table.rows.map(nameOf).join(' / ');

  const layout = useMemo(() => {
    if (!view) return null;
    // the answer to the last request stays until the next one is there, and lacks what was added since
    const answered = metrics.filter((metric) => view.metrics.includes(metric.key));
    return layTable(view, {
      metrics: answered,
      across: Math.max(0, ...view.cols.map((col) => col.key.length)),
      rowLabel: (key, depth) => keyLabel(fields.get(table.rows[depth] ?? ''), key),
      colLabel: (key, depth) => keyLabel(fields.get(table.cols[depth] ?? ''), key),
      sort,
      hidden: table.hidden,
      pinned: table.pinned,
      heat: table.heat,
    });
  }, [view, metrics, table, fields, sort]);

  useCommand(
    'ask.narrow',
    () => {
      const pick = standing.current;
      if (pick) askActions.ask(cellQuestion(question.question, sidesOf(pick)));
    },
    () => standing.current !== null,
  );
  useCommand('ask.hideRow', () => {
    const id = standing.current?.rowId;
    if (id) askActions.table({ hidden: [...table.hidden, id] });
  });
  useCommand('ask.hideColumn', () => {
    const id = standing.current?.groupId;
    if (id) askActions.table({ hidden: [...table.hidden, id] });
  });
  useCommand('ask.pinRow', () => {
    const id = standing.current?.rowId;
    if (!id) return;
    const pinned = table.pinned.includes(id)
      ? table.pinned.filter((each) => each !== id)
      : [...table.pinned, id];
    askActions.table({ pinned });
  });
  const copy = () => {
    if (!layout) return;
    const { text, html } = tableToCopy(layout, rowName);
    const item = new ClipboardItem({
      'text/plain': new Blob([text], { type: 'text/plain' }),
      'text/html': new Blob([html], { type: 'text/html' }),
    });
    navigator.clipboard.write([item]).then(
      () => tellDone(`The table is copied: ${layout.rows.length + 1} rows.`),
      (cause) => tellProblem(problemFrom(cause)),
    );
  };
  useCommand('ask.copyTable', copy);

  const sidesOf = (pick: TablePick): CellSide[] => {
    const side = (field: string, key: TableKey): CellSide => ({
      field,
      key,
      family: table.families,
      isTerm: fields.get(field)?.kind === 'term',
    });
    return [
      ...pick.row.map((key, at) => side(table.rows[at]!, key)),
      ...pick.col.map((key, at) => side(table.cols[at]!, key)),
    ];
  };
  const play = async (pick: TablePick) => {
    if (pick.plays === 0) return;
    try {
      const { playIds } = await questionCalls.pivotPlays(request, { row: pick.row, col: pick.col });
      await playMetric(pick.title, pick.metric, playIds);
    } catch (cause) {
      tellProblem(problemFrom(cause));
    }
  };

  const columnNames = table.cols.map(nameOf).join(' / ');
  return (
    <>
      <TableBar fields={vocabulary.fields} request={request} copy={copy} hidden={layout?.hidden ?? 0} />
      {error ? (
        <TableProblem error={error} />
      ) : !layout || !view ? (
        <div />
      ) : layout.total.plays === 0 ? (
        <NothingFound />
      ) : (
        <EfficiencyTable
          layout={layout}
          rowName={rowName}
          caption={`Efficiency by ${rowName}${columnNames ? ` and ${columnNames}` : ''}`}
          depth={table.rows.length}
          pinned={table.pinned}
          baseline={view.baseline?.label ?? ''}
          sort={sort}
          onSort={askActions.sort}
          onStand={(pick) => {
            standing.current = pick;
          }}
          onPlay={(pick) => void play(pick)}
          settingWords={settingWords}
        />
      )}
    </>
  );
}

function TableProblem({ error }: { readonly error: Error }) {
  const problem = problemFrom(error);
  return (
    <div className={classes.empty} role="alert">
      <h2>{problem.message}</h2>
      <p>{problem.next}</p>
    </div>
  );
}

function settingWords(metric: ShownMetric): string {
  return settingInWords(metricOf(metric.key)?.setting);
}
