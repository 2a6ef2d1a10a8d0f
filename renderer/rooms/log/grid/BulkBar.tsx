import { Button, Select } from '@mantine/core';
import { useState } from 'react';
import type { PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import type { VocabularyIndex } from '../../../../football/log-line/index.ts';
import { termId } from '../../../../football/vocabulary/terms.ts';
import { changePlays } from '../../../service/gesture.ts';
import { playCalls } from '../../../service/play-calls.ts';
import { tellDone } from '../../../service/problems.ts';
import { showPlays } from '../../../state/showing.ts';
import { FieldEditor } from '../card/FieldEditor.tsx';
import classes from './BulkGrid.module.css';
import type { GridColumn } from './grid-columns.ts';

/** One value for all the plays that are chosen, in one gesture that one undo takes back. */
export function BulkBar(props: {
  readonly chosen: readonly PlayView[];
  readonly columns: readonly GridColumn[];
  readonly vocabulary: VocabularyView;
  readonly index: VocabularyIndex;
  readonly onClear: () => void;
}) {
  const { chosen, columns, vocabulary, index, onClear } = props;
  const [key, setKey] = useState<string | null>('coverage');
  const [open, setOpen] = useState(false);
  const field = columns.find((column) => column.field.key === key)?.field;
  const first = chosen[0];
  const count = `${chosen.length} ${chosen.length === 1 ? 'play' : 'plays'}`;
  return (
    <div className={classes.bulk} role="toolbar" aria-label="Change the chosen plays">
      <strong>{count} chosen</strong>
      <span>Set</span>
      <Select
        aria-label="Field to set"
        w={140}
        data={columns.map((column) => ({ value: column.field.key, label: column.field.label }))}
        value={key}
        onChange={(value) => {
          setKey(value);
          setOpen(false);
        }}
        allowDeselect={false}
        searchable
      />
      <span>to</span>
      <div className={classes.bulkValue}>
        {open && field && first ? (
          <FieldEditor
            key={field.key}
            field={field}
            play={first}
            initial=""
            vocabulary={vocabulary}
            index={index}
            onLeave={() => setOpen(false)}
            onKeep={async (edit) => {
              setOpen(false);
              const value =
                edit.newTerm && edit.value.kind === 'term'
                  ? { ...edit.value, termId: termId(field.key, edit.newTerm) }
                  : edit.value;
              const changed = await changePlays(() =>
                playCalls.tagMany(
                  chosen.map((play) => play.playId),
                  field.key,
                  value,
                ),
              );
              if (changed) tellDone(`${field.label} set for ${count}`);
            }}
          />
        ) : (
          <Button disabled={!first} onClick={() => setOpen(true)}>
            a value…
          </Button>
        )}
      </div>
      <Button
        disabled={!first}
        onClick={() =>
          showPlays({ title: `${count} of the grid`, playIds: chosen.map((play) => play.playId) })
        }
      >
        Play them
      </Button>
      <Button disabled={!first} variant="subtle" color="gray" onClick={onClear}>
        Choose none
      </Button>
    </div>
  );
}
