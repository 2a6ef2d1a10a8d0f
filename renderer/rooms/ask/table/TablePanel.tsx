import { useMemo, useRef } from 'react';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import { metricOf } from '../../../../football/metrics/definitions.ts';
import { settingInWords } from '../../../../football/metrics/settings.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { problemFrom } from '../../../service/http.ts';
import { useMetrics, useTable } from '../../../service/queries.ts';
import { useStore } from '../../../state/store.ts';
import { NothingFound } from '../answer/NothingFound.tsx';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { playMetric } from '../play-metric.ts';
import { type CellSide, cellQuestion } from './cell-question.ts';
import { EfficiencyTable } from './EfficiencyTable.tsx';
import { keyLabel } from './key-label.ts';
import { layTable, type ShownMetric, type TableKey } from './table-layout.ts';
import type { TablePick } from './table-pick.ts';

/** The answer as a table. */
export function TablePanel({ vocabulary }: { readonly vocabulary: VocabularyView }) {
  const { question, table, sort } = useStore(askStore);
  const { data: known = [] } = useMetrics();
  const chosen = table.cols === null ? table.metrics : table.crossMetrics;
  const metrics = useMemo(
    () => chosen.flatMap((key) => known.filter((metric) => metric.key === key)),
    [chosen, known],
  );
  const { data: view, error } = useTable(
    metrics.length === 0
      ? null
      : {
          where: question.where,
          rows: table.rows,
          cols: table.cols,
          metrics: metrics.map((metric) => metric.key),
          families: table.families,
        },
  );
  const standing = useRef<TablePick | null>(null);
  const fields = useMemo(() => new Map(vocabulary.fields.map((field) => [field.key, field])), [vocabulary]);
  const rowField = fields.get(table.rows);
  const colField = table.cols === null ? undefined : fields.get(table.cols);

  const layout = useMemo(() => {
    if (!view) return null;
    // the answer to the last request stays until the next one is there, and lacks what was added since
    const answered = metrics.filter((metric) => view.metrics.includes(metric.key));
    return layTable(view, {
      metrics: answered,
      hasColumns: table.cols !== null && view.rows.some((row) => row.col !== undefined),
      rowLabel: (key) => keyLabel(rowField, key),
      colLabel: (key) => keyLabel(colField, key),
      sort,
    });
  }, [view, metrics, table.cols, rowField, colField, sort]);

  useCommand(
    'ask.narrow',
    () => {
      const pick = standing.current;
      if (pick) askActions.ask(cellQuestion(question.question, sidesOf(pick)));
    },
    () => standing.current !== null,
  );
  const sidesOf = (pick: TablePick): CellSide[] => {
    const side = (field: string, key: TableKey): CellSide => ({
      field,
      key,
      family: table.families,
      isTerm: fields.get(field)?.kind === 'term',
    });
    const row = pick.row && pick.row.id !== 'total' ? [side(table.rows, pick.row.key)] : [];
    const col = table.cols !== null && pick.col !== undefined ? [side(table.cols, pick.col)] : [];
    return [...row, ...col];
  };

  if (error) {
    const problem = problemFrom(error);
    return (
      <div className={classes.empty} role="alert">
        <h2>{problem.message}</h2>
        <p>{problem.next}</p>
      </div>
    );
  }
  if (!layout || !view) return null;
  if (view.total.playIds.length === 0) return <NothingFound />;
  const caption = `Efficiency by ${rowField?.label ?? table.rows}${colField ? ` and ${colField.label}` : ''}`;
  return (
    <EfficiencyTable
      layout={layout}
      rowName={rowField?.label ?? table.rows}
      caption={caption}
      sort={sort}
      onSort={askActions.sort}
      onStand={(pick) => {
        standing.current = pick;
      }}
      onPlay={(pick) => void playMetric(pick.title, pick.metric, pick.playIds)}
      settingWords={settingWords}
    />
  );
}

function settingWords(metric: ShownMetric): string {
  return settingInWords(metricOf(metric.key)?.setting);
}
