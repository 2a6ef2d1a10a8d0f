/** A field's terms as families: each under its parent, with what its whole family was used for. */

import type { TermView } from '../../../electron/service/views.ts';

export interface TermRow {
  readonly term: TermView;
  /** 0 for a family's root */
  readonly depth: number;
  readonly hasMembers: boolean;
  /** plays tagged with it or with a member of its family */
  readonly familyUses: number;
}

/** The terms of one field, families together, each level in the order of its names. */
export function termRows(terms: readonly TermView[]): TermRow[] {
  const known = new Set(terms.map((term) => term.id));
  const membersOf = new Map<string | null, TermView[]>();
  for (const term of terms) {
    // a term whose family is hidden stands on its own
    const parent = term.parentId !== null && known.has(term.parentId) ? term.parentId : null;
    membersOf.set(parent, [...(membersOf.get(parent) ?? []), term]);
  }
  const walk = (parent: string | null, depth: number): TermRow[] =>
    (membersOf.get(parent) ?? []).sort(byName).flatMap((term) => {
      const members = walk(term.id, depth + 1);
      const below = members.filter((row) => row.depth === depth + 1);
      const familyUses = term.uses + below.reduce((sum, row) => sum + row.familyUses, 0);
      return [{ term, depth, hasMembers: below.length > 0, familyUses }, ...members];
    });
  return walk(null, 0);
}

/** Terms that may become the family of this one: not itself, and none below it. */
export function possibleFamilies(terms: readonly TermView[], termId: string | null): TermView[] {
  const below = new Set<string>(termId === null ? [] : [termId]);
  for (let grew = true; grew; ) {
    const before = below.size;
    for (const term of terms) if (term.parentId !== null && below.has(term.parentId)) below.add(term.id);
    grew = below.size > before;
  }
  return terms.filter((term) => !below.has(term.id)).sort(byName);
}

/** `Cover 3 › sky` for a member, the name alone for a root: how a list shows which family a term is of. */
export function familyPath(terms: readonly TermView[], term: TermView): string {
  const names = [term.name];
  const seen = new Set([term.id]);
  let parent = terms.find((other) => other.id === term.parentId);
  while (parent && !seen.has(parent.id)) {
    names.unshift(parent.name);
    seen.add(parent.id);
    const above = parent.parentId;
    parent = terms.find((other) => other.id === above);
  }
  return names.join(' › ');
}

/** Shorter spellings as typed in one line: `c3, three` to its parts. */
export function splitAliases(text: string): string[] {
  return [
    ...new Set(
      text
        .split(',')
        .map((part) => part.trim())
        .filter((part) => part !== ''),
    ),
  ];
}

function byName(a: TermView, b: TermView): number {
  return a.name.localeCompare(b.name, 'en', { numeric: true, sensitivity: 'base' });
}

/** The rows that are looked for, each with its family above it. */
export function termsFound(rows: readonly TermRow[], sought: string): TermRow[] {
  const wanted = sought.trim().toLowerCase();
  if (wanted === '') return [...rows];
  const hit = ({ term }: TermRow) =>
    [term.name, ...term.aliases].some((name) => name.toLowerCase().includes(wanted));
  return rows.filter((row, at) => {
    if (hit(row)) return true;
    // a family stays over a member that was found
    for (let below = at + 1; below < rows.length && rows[below]!.depth > row.depth; below++)
      if (hit(rows[below]!)) return true;
    return false;
  });
}
