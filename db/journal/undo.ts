/** A gesture as the undo stack needs it, in the order in which it was made. */
export interface PastGesture {
  readonly gesture: string;
  readonly label: string;
  readonly undoes: string | null;
}

/**
 * Undo and redo as they follow from the journal alone, so that they survive a restart. Taking back is
 * itself a gesture: one that takes back the top of `done` is an undo, one that takes back the top of
 * `undone` is a redo.
 */
export class UndoStacks {
  private done: PastGesture[] = [];
  private undone: PastGesture[] = [];

  add(gesture: PastGesture): void {
    if (gesture.undoes === null) {
      this.done.push(gesture);
      this.undone = [];
      return;
    }
    const inDone = this.done.findLastIndex((g) => g.gesture === gesture.undoes);
    if (inDone >= 0) {
      const [taken] = this.done.splice(inDone, 1);
      this.undone.push({ ...gesture, label: taken?.label ?? gesture.label });
      return;
    }
    const inUndone = this.undone.findLastIndex((g) => g.gesture === gesture.undoes);
    if (inUndone >= 0) {
      const [taken] = this.undone.splice(inUndone, 1);
      this.done.push({ ...gesture, label: taken?.label ?? gesture.label });
    }
  }

  nextUndo(): PastGesture | null {
    return this.done.at(-1) ?? null;
  }

  nextRedo(): PastGesture | null {
    return this.undone.at(-1) ?? null;
  }
}
