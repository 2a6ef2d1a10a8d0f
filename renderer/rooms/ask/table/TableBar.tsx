import { Button, Checkbox, Menu, MultiSelect, Select } from '@mantine/core';
import type { PivotRequest } from '../../../../electron/service/pivot-views.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { useGames, useMetrics, useQuestions } from '../../../service/queries.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore, type TableChoice } from '../ask-store.ts';
import { fieldsToGroup } from '../fields-to-group.ts';
import { MetricPicker } from './MetricPicker.tsx';
import { useTableExport } from './use-table-export.tsx';

interface TableBarProps {
  readonly fields: readonly FieldDefinition[];
  readonly request: PivotRequest;
  /** the table as text with tabs and as HTML, for the clipboard */
  readonly copy: () => void;
  readonly hidden: number;
}

/** Rows, columns, metrics and baseline of the table, and the ways out of it. */
export function TableBar({ fields, request, copy, hidden }: TableBarProps) {
  const { table } = useStore(askStore);
  const { data: metrics = [] } = useMetrics();
  const choices = fieldsToGroup(fields);
  const without = (taken: readonly string[]) =>
    choices.map((group) => ({
      ...group,
      items: group.items.filter((item) => !taken.includes(item.value)),
    }));
  const isTerm = (key: string) => fields.find((field) => field.key === key)?.kind === 'term';
  const shown = table.cols.length === 0 ? table.metrics : table.crossMetrics;
  const { write, writing, dialog } = useTableExport(request);
  return (
    <div className={classes.bar} data-noprint>
      <MultiSelect
        label="Rows (up to three)"
        miw={150}
        maw={330}
        searchable
        maxValues={3}
        data={without(table.cols)}
        value={[...table.rows]}
        onChange={(rows) => rows.length > 0 && askActions.table({ rows })}
      />
      <MultiSelect
        label="Columns (up to two)"
        miw={150}
        maw={270}
        searchable
        clearable
        maxValues={2}
        placeholder={table.cols.length === 0 ? 'metrics alone' : ''}
        data={without(table.rows)}
        value={[...table.cols]}
        onChange={(cols) => askActions.table({ cols })}
      />
      <MetricPicker
        metrics={metrics}
        chosen={shown}
        onChange={(next) =>
          askActions.table(table.cols.length === 0 ? { metrics: next } : { crossMetrics: next })
        }
      />
      <BaselineSelect table={table} />
      {[...table.rows, ...table.cols].some(isTerm) && (
        <Checkbox
          className={classes.families}
          size="xs"
          label="By family"
          title="Count every member with its family: Cover 3 sky, buzz and cloud as Cover 3"
          checked={table.families}
          onChange={(event) => askActions.table({ families: event.currentTarget.checked })}
        />
      )}
      <Checkbox
        className={classes.families}
        size="xs"
        label="Heat"
        title="Shade every column by fifths of its rows, with a bar beside each number; rows on few plays are left out"
        checked={table.heat}
        onChange={(event) => askActions.table({ heat: event.currentTarget.checked })}
      />
      {hidden > 0 && <Button onClick={() => askActions.table({ hidden: [] })}>Show {hidden} hidden</Button>}
      <Menu position="bottom-end">
        <Menu.Target>
          <Button loading={writing}>Table out</Button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={copy}>Copy for a spreadsheet</Menu.Item>
          <Menu.Item onClick={() => void write('.xlsx')}>as XLSX, with formulas</Menu.Item>
          <Menu.Item onClick={() => void write('.csv')}>as CSV</Menu.Item>
          <Menu.Item onClick={() => void write('.pdf')}>as PDF</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      {dialog}
    </div>
  );
}

/** What the numbers are held against. */
function BaselineSelect({ table }: { readonly table: TableChoice }) {
  const { data: games = [] } = useGames();
  const { data: saved = [] } = useQuestions();
  const opponents = [...new Set(games.flatMap((game) => game.opponent || []))];
  return (
    <Select
      label="Difference to"
      w={150}
      clearable
      placeholder="nothing"
      data={[
        { value: JSON.stringify({ kind: 'rest' }), label: 'all other plays' },
        { value: JSON.stringify({ kind: 'lastSeason' }), label: 'last season' },
        {
          group: 'Games against',
          items: opponents.map((opponent) => ({
            value: JSON.stringify({ kind: 'opponent', opponent }),
            label: opponent,
          })),
        },
        {
          group: 'Saved questions',
          items: [...new Map(saved.map((q) => [q.where, q.name]))].map(([where, name]) => ({
            value: JSON.stringify({ kind: 'question', where }),
            label: name,
          })),
        },
      ]}
      value={table.baseline && JSON.stringify(table.baseline)}
      onChange={(text) => askActions.table({ baseline: text === null ? null : JSON.parse(text) })}
    />
  );
}
