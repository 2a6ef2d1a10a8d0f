import { useState } from 'react';
import type { ChangedView, FilmTimeView, PlayView } from '../../../../electron/service/views.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { termId } from '../../../../football/vocabulary/terms.ts';
import { changePlays } from '../../../service/gesture.ts';
import { playCalls } from '../../../service/play-calls.ts';
import type { FieldEdit } from './FieldEditor.tsx';

/** Sends a field's edit; until the service has it the field shows as being saved, with its old value. */
export function useFieldEdits(filmTime: () => FilmTimeView | null) {
  const [saving, setSaving] = useState<ReadonlySet<string>>(new Set());
  const send = async (
    play: PlayView,
    field: FieldDefinition,
    edit: FieldEdit,
  ): Promise<ChangedView | null> => {
    const mark = `${play.playId} ${field.key}`;
    setSaving((now) => new Set(now).add(mark));
    const value =
      edit.newTerm && edit.value.kind === 'term'
        ? { ...edit.value, termId: termId(field.key, edit.newTerm) }
        : edit.value;
    const changed = await changePlays(() =>
      playCalls.tag({ playId: play.playId, changes: [{ field: field.key, value }], film: filmTime() }),
    );
    setSaving((now) => {
      const left = new Set(now);
      left.delete(mark);
      return left;
    });
    return changed;
  };
  return {
    send,
    isSaving: (play: PlayView, field: FieldDefinition) => saving.has(`${play.playId} ${field.key}`),
  };
}
