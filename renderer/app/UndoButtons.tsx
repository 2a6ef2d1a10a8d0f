import { ActionIcon, Tooltip } from '@mantine/core';
import { IconArrowBackUp, IconArrowForwardUp } from '@tabler/icons-react';
import { dispatcher } from '../commands/Commands.tsx';
import { useLibrary } from '../service/queries.ts';

/** Undo and redo, each saying what it would do. */
export function UndoButtons() {
  const { data: library } = useLibrary();
  const undo = library?.undo ? `Undo: ${library.undo}` : 'Nothing to undo';
  const redo = library?.redo ? `Redo: ${library.redo}` : 'Nothing to redo';
  return (
    <>
      <Tooltip label={`${undo} (Ctrl+Z)`}>
        <ActionIcon aria-label={undo} disabled={!library?.undo} onClick={() => dispatcher.run('edit.undo')}>
          <IconArrowBackUp size={17} />
        </ActionIcon>
      </Tooltip>
      <Tooltip label={`${redo} (Ctrl+Shift+Z)`}>
        <ActionIcon aria-label={redo} disabled={!library?.redo} onClick={() => dispatcher.run('edit.redo')}>
          <IconArrowForwardUp size={17} />
        </ActionIcon>
      </Tooltip>
    </>
  );
}
