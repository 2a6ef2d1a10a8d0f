import type { Database, Statement } from 'better-sqlite3';
import { v7 as uuidv7 } from 'uuid';
import { RowWriter } from './apply.ts';
import { HybridClock, parseStamp } from './clock.ts';
import { type Change, type Edit, type EditValue, type Gesture, sameValue } from './edit.ts';
import { type PastGesture, UndoStacks } from './undo.ts';

interface EditRow extends Omit<Edit, 'value' | 'prior'> {
  readonly value: string;
  readonly prior: string;
}

const EDIT_COLUMNS =
  'stamp, person, gesture, label, undoes, origin, entity, entity_id AS entityId, field, value, prior, film_id AS filmId, film_frame AS filmFrame';

export interface Committed {
  readonly gesture: string;
  readonly label: string;
  readonly edits: readonly Edit[];
}

/**
 * The only way to change a library's shared rows. An edit and the row it changes commit in one
 * transaction; whoever is told of a gesture is told after the commit.
 */
export class Journal {
  private readonly writer: RowWriter;
  private readonly clock: HybridClock;
  private readonly listeners = new Set<(committed: Committed) => void>();
  private readonly insertEdit: Statement<unknown[]>;
  private stacks: UndoStacks | null = null;

  constructor(
    private readonly db: Database,
    readonly station: string,
    private readonly person: string,
  ) {
    this.writer = new RowWriter(db);
    this.insertEdit = db.prepare(
      `INSERT INTO edits (stamp, person, gesture, label, undoes, origin, entity, entity_id, field, value, prior, film_id, film_frame)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    this.clock = new HybridClock(station);
    const newest = db.prepare('SELECT max(stamp) AS stamp FROM edits').get() as { stamp: string | null };
    if (newest.stamp) this.clock.observe(newest.stamp);
  }

  onCommit(listener: (committed: Committed) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /**
   * Commits one gesture. Changes that change nothing are left out; a gesture of which nothing is left
   * leaves no trace.
   */
  commit(gesture: Gesture, changes: readonly Change[]): Committed {
    return this.run(gesture, changes, null);
  }

  /** Takes back the last gesture of this station that still stands; null when there is none. */
  undo(): Committed | null {
    return this.takeBack(this.history().nextUndo());
  }

  /** Takes back the last undo; null when there is none. */
  redo(): Committed | null {
    return this.takeBack(this.history().nextRedo());
  }

  nextUndo(): PastGesture | null {
    return this.history().nextUndo();
  }

  nextRedo(): PastGesture | null {
    return this.history().nextRedo();
  }

  /** Adds another station's edits. Per field the latest stamp wins; edits already known are skipped. */
  merge(edits: readonly Edit[]): Committed {
    const known = this.db.prepare('SELECT 1 FROM edits WHERE stamp = ?');
    const later = this.db.prepare(
      'SELECT 1 FROM edits WHERE entity = ? AND entity_id = ? AND field = ? AND stamp > ? LIMIT 1',
    );
    const fresh = [...edits].sort((a, b) => (a.stamp < b.stamp ? -1 : 1)).filter((e) => !known.get(e.stamp));
    this.db.transaction(() => {
      for (const edit of fresh) {
        this.insert(edit);
        this.clock.observe(edit.stamp);
        if (!later.get(edit.entity, edit.entityId, edit.field, edit.stamp)) this.writer.write(edit);
      }
    })();
    const committed = { gesture: uuidv7(), label: 'merge', edits: fresh };
    this.tell(committed);
    return committed;
  }

  /** All edits in the order of their stamps. */
  *edits(): IterableIterator<Edit> {
    for (const row of this.db.prepare(`SELECT ${EDIT_COLUMNS} FROM edits ORDER BY stamp`).iterate()) {
      yield fromRow(row as EditRow);
    }
  }

  private takeBack(past: PastGesture | null): Committed | null {
    if (!past) return null;
    const rows = this.db
      .prepare(`SELECT ${EDIT_COLUMNS} FROM edits WHERE gesture = ? ORDER BY stamp DESC`)
      .all(past.gesture) as EditRow[];
    const changes = rows.map(fromRow).map((e) => ({
      entity: e.entity,
      id: e.entityId,
      field: e.field,
      value: e.prior,
      origin: priorOrigin(this.db, e),
    }));
    return this.run({ label: past.label }, changes, past.gesture);
  }

  private run(gesture: Gesture, changes: readonly Change[], undoes: string | null): Committed {
    const id = uuidv7();
    const edits: Edit[] = [];
    this.db.transaction(() => {
      for (const change of changes) {
        const prior = this.writer.read(change.entity, change.id, change.field);
        const origin = change.origin ?? gesture.origin ?? 'entered';
        if (undoes === null && this.changesNothing(change, prior, origin)) continue;
        const edit: Edit = {
          stamp: this.clock.next(),
          person: this.person,
          gesture: id,
          label: gesture.label,
          undoes,
          origin,
          entity: change.entity,
          entityId: change.id,
          field: change.field,
          value: change.value,
          prior,
          filmId: gesture.film?.filmId ?? null,
          filmFrame: gesture.film?.frame ?? null,
        };
        this.insert(edit);
        this.writer.write(edit);
        edits.push(edit);
      }
    })();
    const committed = { gesture: id, label: gesture.label, edits };
    if (edits.length > 0) {
      this.stacks?.add({ gesture: id, label: gesture.label, undoes });
      this.tell(committed);
    }
    return committed;
  }

  /** Whether a change would leave a trace if it were committed as it stands. */
  wouldChange(change: Change): boolean {
    const prior = this.writer.read(change.entity, change.id, change.field);
    return !this.changesNothing(change, prior, change.origin ?? 'entered');
  }

  private changesNothing(change: Change, prior: EditValue, origin: string): boolean {
    if (change.entity === 'tag' && change.field === 'value') {
      return sameValue(tagSubstance(change.value), tagSubstance(prior));
    }
    if (!sameValue(change.value, prior)) return false;
    // entering what had been predicted makes it entered
    return !(
      change.entity === 'play' &&
      origin !== 'predicted' &&
      this.writer.predicted(change.id).includes(change.field)
    );
  }

  private insert(edit: Edit): void {
    this.insertEdit.run(
      edit.stamp,
      edit.person,
      edit.gesture,
      edit.label,
      edit.undoes,
      edit.origin,
      edit.entity,
      edit.entityId,
      edit.field,
      JSON.stringify(edit.value),
      JSON.stringify(edit.prior),
      edit.filmId,
      edit.filmFrame,
    );
  }

  private history(): UndoStacks {
    if (!this.stacks) {
      this.stacks = new UndoStacks();
      const rows = this.db
        .prepare(
          'SELECT gesture, label, undoes, min(stamp) AS first FROM edits GROUP BY gesture ORDER BY first',
        )
        .all() as (PastGesture & { first: string })[];
      for (const row of rows) {
        if (parseStamp(row.first).station === this.station) this.stacks.add(row);
      }
    }
    return this.stacks;
  }

  private tell(committed: Committed): void {
    for (const listener of this.listeners) listener(committed);
  }
}

/** Term, number, text, player: what a tag says, without when and by whom it was said. */
function tagSubstance(value: EditValue): EditValue {
  return Array.isArray(value) ? value.slice(0, 4) : (value as EditValue);
}

/** A value that was a prediction before the gesture is one again after the gesture is taken back. */
function priorOrigin(db: Database, edit: Edit): Edit['origin'] {
  if (edit.entity !== 'play' || edit.prior === null) return 'entered';
  const before = db
    .prepare(
      'SELECT origin FROM edits WHERE entity = ? AND entity_id = ? AND field = ? AND stamp < ? ORDER BY stamp DESC LIMIT 1',
    )
    .get(edit.entity, edit.entityId, edit.field, edit.stamp) as { origin: Edit['origin'] } | undefined;
  return before?.origin ?? 'entered';
}

function fromRow(row: EditRow): Edit {
  return { ...row, value: JSON.parse(row.value) as EditValue, prior: JSON.parse(row.prior) as EditValue };
}
