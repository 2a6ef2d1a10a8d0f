import type { Database, Statement } from 'better-sqlite3';
import type { Edit, EditValue } from './edit.ts';
import { type EntityDefinition, entity } from './entities.ts';

/** The value of `removed` on a row that is not there. */
const NOT_THERE = 1;

/**
 * Writes edits to the rows they change, and reads what stands there now. The same code serves a live
 * gesture, a merge and a rebuild, so that a rebuild cannot come to another result.
 */
export class RowWriter {
  private readonly statements = new Map<string, Statement<unknown[]>>();

  constructor(private readonly db: Database) {}

  /** The value now in the row; null (and `removed` 1) where there is no row. */
  read(entityName: string, id: string, field: string): EditValue {
    const definition = entity(entityName);
    const columns = columnsOf(definition, entityName, field);
    const row = this.statement(
      `read ${entityName}.${field}`,
      () => `SELECT ${columns.map((c) => `"${c}"`).join(', ')} FROM "${definition.table}" WHERE id = ?`,
    )
      .raw()
      .get(id) as (string | number | null)[] | undefined;
    if (!row) return field === 'removed' ? NOT_THERE : null;
    if (columns.length === 1) return row[0] ?? null;
    return row.every((v) => v === null) ? null : row;
  }

  /** Which fields of a play hold a prediction. */
  predicted(playId: string): string[] {
    const row = this.statement('predicted', () => 'SELECT predicted FROM plays WHERE id = ?').get(playId) as
      | { predicted: string }
      | undefined;
    return row?.predicted ? row.predicted.split(',') : [];
  }

  write(edit: Pick<Edit, 'entity' | 'entityId' | 'field' | 'value' | 'origin'>): void {
    const definition = entity(edit.entity);
    const columns = columnsOf(definition, edit.entity, edit.field);
    this.ensureRow(definition, edit.entity, edit.entityId);
    const values =
      columns.length === 1 ? [edit.value as string | number | null] : spread(edit.value, columns.length);
    // a tag or a moment is there exactly when it has a value
    const follows = definition.fromId && edit.field !== 'removed' ? ', removed = ?' : '';
    const sets = columns.map((c) => `"${c}" = ?`).join(', ');
    this.statement(
      `write ${edit.entity}.${edit.field}`,
      () => `UPDATE "${definition.table}" SET ${sets}${follows} WHERE id = ?`,
    ).run(...values, ...(follows ? [edit.value === null ? 1 : 0] : []), edit.entityId);
    if (edit.entity === 'play') this.markPrediction(edit.entityId, edit.field, edit.origin === 'predicted');
  }

  private markPrediction(playId: string, field: string, isPrediction: boolean): void {
    const now = this.predicted(playId);
    if (now.includes(field) === isPrediction) return;
    const next = isPrediction ? [...now, field].sort() : now.filter((k) => k !== field);
    this.statement('mark', () => 'UPDATE plays SET predicted = ? WHERE id = ?').run(next.join(','), playId);
  }

  private ensureRow(definition: EntityDefinition, name: string, id: string): void {
    const extra = definition.fromId?.(id) ?? {};
    const keys = ['id', ...Object.keys(extra)];
    this.statement(
      `ensure ${name}`,
      () =>
        `INSERT INTO "${definition.table}" (${keys.join(', ')}) VALUES (${keys.map(() => '?').join(', ')}) ON CONFLICT (id) DO NOTHING`,
    ).run(id, ...Object.values(extra));
  }

  private statement(key: string, sql: () => string): Statement<unknown[]> {
    const known = this.statements.get(key);
    if (known) return known;
    const made = this.db.prepare<unknown[]>(sql());
    this.statements.set(key, made);
    return made;
  }
}

function columnsOf(definition: EntityDefinition, name: string, field: string): readonly string[] {
  const columns = Object.hasOwn(definition.fields, field) ? definition.fields[field] : undefined;
  if (!columns) throw new Error(`The journal knows no field ${field} of ${name}.`);
  return columns;
}

function spread(value: EditValue, length: number): (string | number | null)[] {
  if (value === null) return new Array<null>(length).fill(null);
  if (!Array.isArray(value) || value.length !== length) {
    throw new Error(`A coupled value of ${length} parts was expected.`);
  }
  return [...value];
}
