import { BUILT_IN_TERMS, termId } from '../../football/vocabulary/terms.ts';
import type { Change } from '../journal/edit.ts';

/** The terms that every new library starts with, as changes for the journal. */
export function firstPlaybook(): Change[] {
  return BUILT_IN_TERMS.flatMap((term) => {
    const id = termId(term.field, term.name);
    return newTerm(
      id,
      term.field,
      term.name,
      term.parent ? termId(term.field, term.parent) : null,
      term.aliases ?? [],
    );
  });
}

export function newTerm(
  id: string,
  field: string,
  name: string,
  parentId: string | null,
  aliases: readonly string[],
): Change[] {
  const at = { entity: 'term', id };
  return [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'field', value: field },
    { ...at, field: 'name', value: name },
    ...(parentId ? [{ ...at, field: 'parentId', value: parentId }] : []),
    ...(aliases.length ? [{ ...at, field: 'aliases', value: JSON.stringify(aliases) }] : []),
  ];
}
