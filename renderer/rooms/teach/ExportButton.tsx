import { Button } from '@mantine/core';
import { useState } from 'react';
import type { CutupDetailView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { usePathChooser } from '../../parts/paths/usePathChooser.tsx';
import { cache, keys } from '../../service/cache.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { ExportForm } from './ExportForm.tsx';
import { type ExportChoice, FIRST_CHOICE, isReel, reelChoices } from './export-choices.ts';

/** Writes the cut-up to a file; how far that is shows under the head. What was chosen last stands there the next time. */
export function ExportButton({ cutup }: { readonly cutup: CutupDetailView }) {
  const { choose, dialog } = usePathChooser();
  const [open, setOpen] = useState(false);
  const [choice, setChoice] = useState<ExportChoice>(FIRST_CHOICE);
  useCommand('cutup.export', () => setOpen(true));

  const write = async () => {
    const { ending } = choice;
    setOpen(false);
    const [to] =
      (await choose({
        for: 'save',
        title: `Write ${cutup.name}`,
        suggested: `${cutup.name.replace(/[\\/:*?"<>|]/g, '-')}${ending}`,
        endings: [ending],
      })) ?? [];
    if (!to) return;
    if (
      await gesture(() => cutupCalls.export(cutup.cutupId, to, isReel(ending) ? reelChoices(choice) : {}))
    ) {
      void cache.invalidateQueries({ queryKey: keys.jobs });
    }
  };

  return (
    <>
      <Button variant="filled" disabled={cutup.list.length === 0} onClick={() => setOpen(true)}>
        Export
      </Button>
      <Dialog opened={open} title={`Export ${cutup.name}`} size={560} onClose={() => setOpen(false)}>
        <ExportForm
          cutup={cutup}
          choice={choice}
          onChange={(change) => setChoice((now) => ({ ...now, ...change }))}
          onWrite={() => void write()}
        />
      </Dialog>
      {dialog}
    </>
  );
}
