import type { KeyboardEvent } from 'react';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { showWhere } from '../../../parts/show-where.ts';
import page from '../playbook.module.css';
import type { TermRow } from '../term-tree.ts';
import classes from './terms.module.css';

interface TermTableProps {
  readonly field: FieldDefinition;
  readonly rows: readonly TermRow[];
  readonly chosen: string | null;
  readonly onChoose: (termId: string) => void;
}

/** The families as an indented list; arrow keys walk, each count opens its film. */
export function TermTable({ field, rows, chosen, onChoose }: TermTableProps) {
  const onKeyDown = (event: KeyboardEvent<HTMLTableElement>) => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const button = event.target as HTMLElement;
    if (step === 0 || !button.dataset.column) return;
    const column = [
      ...event.currentTarget.querySelectorAll<HTMLElement>(`[data-column="${button.dataset.column}"]`),
    ];
    column[column.indexOf(button) + step]?.focus();
    event.preventDefault();
  };
  if (rows.length === 0) return <p className={page.none}>No term here yet, or none of that name.</p>;
  return (
    <div className={page.scroll}>
      <table className={page.table} onKeyDown={onKeyDown}>
        <thead>
          <tr>
            <th scope="col">Term</th>
            <th scope="col">Also typed as</th>
            <th scope="col" className={page.number}>
              Plays
            </th>
            <th scope="col" className={page.number}>
              With its family
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ term, depth, hasMembers, familyUses }) => (
            <tr key={term.id} data-chosen={term.id === chosen || undefined} className={classes.row}>
              <th scope="row" style={{ paddingLeft: 10 + depth * 22 }}>
                <button
                  type="button"
                  className={classes.term}
                  data-column="term"
                  aria-pressed={term.id === chosen}
                  onClick={() => onChoose(term.id)}
                >
                  {term.name}
                </button>
              </th>
              <td className={classes.aliases}>{term.aliases.join(', ')}</td>
              <td className={page.number}>
                <Uses
                  count={term.uses}
                  title={`${field.label}: ${term.name}${hasMembers ? ' alone' : ''}`}
                  onShow={(title) =>
                    void showWhere(title, {
                      kind: 'rule',
                      field: field.key,
                      operator: 'exactly',
                      value: term.name,
                    })
                  }
                />
              </td>
              <td className={page.number}>
                {hasMembers && (
                  <Uses
                    count={familyUses}
                    title={`${field.label}: ${term.name} and its family`}
                    onShow={(title) =>
                      void showWhere(title, {
                        kind: 'rule',
                        field: field.key,
                        operator: '=',
                        value: term.name,
                      })
                    }
                  />
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface UsesProps {
  readonly count: number;
  readonly title: string;
  readonly onShow: (title: string) => void;
}

function Uses({ count, title, onShow }: UsesProps) {
  if (count === 0) return <span className={classes.aliases}>0</span>;
  return (
    <button
      type="button"
      className={classes.uses}
      data-column="uses"
      title={`Play them: ${title}`}
      aria-label={`${count} plays, ${title}`}
      onClick={() => onShow(title)}
    >
      {count}
    </button>
  );
}
