import { eq } from 'drizzle-orm';
import type { FieldDefinition, FieldKind } from '../../football/vocabulary/fields.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';
import type { Library } from '../library.ts';
import { fields, players, readRules, settings, terms } from '../schema.ts';

export interface TermRow {
  readonly id: string;
  readonly field: string;
  readonly name: string;
  readonly parentId: string | null;
  readonly aliases: readonly string[];
}

export interface PlayerRow {
  readonly id: string;
  readonly number: number | null;
  readonly name: string | null;
  readonly position: string | null;
  readonly team: string | null;
}

/** The built-in fields, then the staff's own in the order of their keys. */
export function listFields(library: Library): FieldDefinition[] {
  const own = library.orm.select().from(fields).where(eq(fields.removed, 0)).orderBy(fields.id).all();
  const ownKeys = new Set(own.map((f) => f.id));
  return [
    // a staff that has a field of its own by that name keeps it
    ...BUILT_IN_FIELDS.filter((f) => f.home !== 'derived' || !ownKeys.has(f.key)),
    ...own.map(
      (f): FieldDefinition => ({
        key: f.id,
        label: f.label ?? f.id,
        kind: (f.kind ?? 'text') as FieldKind,
        home: 'tag',
        group: 'calls',
        help: f.help ?? '',
        ...(f.unit ? { unit: f.unit } : {}),
      }),
    ),
  ];
}

export function listTerms(library: Library): TermRow[] {
  return library.orm
    .select()
    .from(terms)
    .where(eq(terms.removed, 0))
    .orderBy(terms.field, terms.id)
    .all()
    .map((t) => ({
      id: t.id,
      field: t.field ?? '',
      name: t.name ?? '',
      parentId: t.parentId,
      aliases: t.aliases ? (JSON.parse(t.aliases) as string[]) : [],
    }));
}

export function listPlayers(library: Library): PlayerRow[] {
  return library.orm
    .select({
      id: players.id,
      number: players.number,
      name: players.name,
      position: players.position,
      team: players.team,
    })
    .from(players)
    .where(eq(players.removed, 0))
    .orderBy(players.team, players.number, players.name)
    .all();
}

export function listReadRules(library: Library) {
  return library.orm
    .select()
    .from(readRules)
    .where(eq(readRules.removed, 0))
    .orderBy(readRules.concept, readRules.rank, readRules.id)
    .all();
}

/** A setting's value, or null where it was never set. */
export function readSetting<T>(library: Library, key: string): T | null {
  const row = library.orm.select().from(settings).where(eq(settings.id, key)).get();
  return row?.value ? (JSON.parse(row.value) as T) : null;
}

/** How many plays carry each term, by term id. */
export function countTermUses(library: Library): Map<string, number> {
  const rows = library.db
    .prepare(
      `SELECT t.term_id AS id, count(*) AS uses FROM tags t JOIN plays p ON p.id = t.play_id AND p.removed = 0
       WHERE t.removed = 0 AND t.term_id IS NOT NULL GROUP BY t.term_id`,
    )
    .all() as { id: string; uses: number }[];
  return new Map(rows.map((r) => [r.id, r.uses]));
}
