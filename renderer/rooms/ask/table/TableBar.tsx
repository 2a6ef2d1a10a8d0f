import { Checkbox, Select } from '@mantine/core';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { useMetrics } from '../../../service/queries.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { fieldsToGroup } from '../fields-to-group.ts';
import { MetricPicker } from './MetricPicker.tsx';

/** Rows, columns and metrics of the table. */
export function TableBar({ fields }: { readonly fields: readonly FieldDefinition[] }) {
  const { table } = useStore(askStore);
  const { data: metrics = [] } = useMetrics();
  const choices = fieldsToGroup(fields);
  const isTerm = (key: string | null) => fields.find((field) => field.key === key)?.kind === 'term';
  const shown = table.cols === null ? table.metrics : table.crossMetrics;
  return (
    <div className={classes.bar} data-noprint>
      <Select
        label="Rows"
        w={150}
        searchable
        data={choices}
        value={table.rows}
        onChange={(rows) =>
          rows && askActions.table({ rows, ...(rows === table.cols ? { cols: null } : {}) })
        }
      />
      <Select
        label="Columns"
        w={150}
        searchable
        clearable
        placeholder="metrics alone"
        data={choices.map((group) => ({
          ...group,
          items: group.items.filter((item) => item.value !== table.rows),
        }))}
        value={table.cols}
        onChange={(cols) => {
          leave();
          askActions.table({ cols });
        }}
      />
      <MetricPicker
        metrics={metrics}
        chosen={shown}
        onChange={(next) =>
          askActions.table(table.cols === null ? { metrics: next } : { crossMetrics: next })
        }
      />
      {(isTerm(table.rows) || isTerm(table.cols)) && (
        <Checkbox
          className={classes.families}
          size="xs"
          label="By family"
          title="Count every member with its family: Cover 3 sky, buzz and cloud as Cover 3"
          checked={table.families}
          onChange={(event) => askActions.table({ families: event.currentTarget.checked })}
        />
      )}
    </div>
  );
}

/** A choice is made: the keys of the room act again, and Tab goes on from here. */
function leave(): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}
