import { Select } from '@mantine/core';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import type { SheetMapping, SheetPreview } from '../../../service/sheet-calls.ts';
import { LEFT_OUT, mapValue } from '../sheet-map.ts';
import classes from './sheet.module.css';

interface ValueMapProps {
  readonly values: SheetPreview['values'];
  readonly vocabulary: VocabularyView;
  readonly map: SheetMapping;
  readonly onChange: (map: SheetMapping) => void;
}

const AS_IT_STANDS = '\u0000as it stands';

/** Which of our terms each value of the sheet means; the ones that nobody knows yet come first. */
export function ValueMap({ values, vocabulary, map, onChange }: ValueMapProps) {
  const label = (key: string) => vocabulary.fields.find((field) => field.key === key)?.label ?? key;
  const known = (value: SheetPreview['values'][number]) => value.ours !== null;
  const sorted = [...values].sort((a, b) => Number(known(a)) - Number(known(b)));
  return (
    <section aria-label="Values">
      <h3 className={classes.mapHead}>Values</h3>
      {values.length === 0 && <p className={classes.lead}>No column with terms is read yet.</p>}
      {values.length > 0 && (
        <table className={classes.map}>
          <thead>
            <tr>
              <th scope="col">Field</th>
              <th scope="col">Theirs</th>
              <th scope="col" className={classes.count}>
                Rows
              </th>
              <th scope="col">Ours</th>
            </tr>
          </thead>
          <tbody>
            {sorted.map((value) => (
              <tr key={`${value.field} ${value.theirs}`}>
                <td className={classes.samples}>{label(value.field)}</td>
                <th scope="row">{value.theirs || '(blank)'}</th>
                <td className={classes.count}>{value.count}</td>
                <td>
                  <Select
                    aria-label={`What ${value.theirs} means as ${label(value.field)}`}
                    searchable
                    allowDeselect={false}
                    data={[
                      { value: AS_IT_STANDS, label: asItStands(value) },
                      { value: LEFT_OUT, label: 'left out' },
                      ...vocabulary.terms
                        .filter((term) => term.field === value.field && term.name !== AS_IT_STANDS)
                        .map((term) => ({ value: term.name, label: term.name })),
                    ]}
                    value={chosen(value, map)}
                    onChange={(ours) =>
                      onChange(mapValue(map, value.field, value.theirs, ours === AS_IT_STANDS ? null : ours))
                    }
                    classNames={{ input: known(value) ? undefined : classes.unknown }}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function chosen(value: SheetPreview['values'][number], map: SheetMapping): string {
  return map.values[value.field]?.[value.theirs] ?? value.ours ?? AS_IT_STANDS;
}

function asItStands(value: SheetPreview['values'][number]): string {
  if (value.isNew) return `new term: ${value.theirs}`;
  return value.ours === null ? 'refused: not a term of this field' : `as it stands: ${value.theirs}`;
}
