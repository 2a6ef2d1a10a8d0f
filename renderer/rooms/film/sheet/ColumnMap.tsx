import { Select } from '@mantine/core';
import { useMemo } from 'react';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import type { SheetMapping, SheetPreview } from '../../../service/sheet-calls.ts';
import { LEFT_OUT, mapColumn } from '../sheet-map.ts';
import classes from './sheet.module.css';

interface ColumnMapProps {
  readonly columns: SheetPreview['columns'];
  readonly fields: readonly FieldDefinition[];
  readonly map: SheetMapping;
  readonly onChange: (map: SheetMapping) => void;
}

/** Which field each column of the sheet fills. */
export function ColumnMap({ columns, fields, map, onChange }: ColumnMapProps) {
  const choices = useMemo(
    () => [
      { value: LEFT_OUT, label: 'left out' },
      ...fields
        .filter((field) => field.home !== 'derived')
        .map((field) => ({ value: field.key, label: field.label })),
    ],
    [fields],
  );
  return (
    <section aria-label="Columns">
      <h3 className={classes.mapHead}>Columns</h3>
      <table className={classes.map}>
        <thead>
          <tr>
            <th scope="col">Theirs</th>
            <th scope="col">for instance</th>
            <th scope="col">Our field</th>
          </tr>
        </thead>
        <tbody>
          {columns.map((column) => (
            <tr key={column.name}>
              <th scope="row">{column.name}</th>
              <td className={classes.samples}>{column.samples.join(', ')}</td>
              <td>
                <Select
                  aria-label={`Our field for ${column.name}`}
                  searchable
                  allowDeselect={false}
                  data={choices}
                  value={column.field ?? LEFT_OUT}
                  onChange={(field) => onChange(mapColumn(map, column.name, field ?? LEFT_OUT))}
                  data-left-out={!column.field || undefined}
                  classNames={{ input: column.field ? undefined : classes.leftOut }}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
