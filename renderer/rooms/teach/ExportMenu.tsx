import { Button, Menu } from '@mantine/core';
import { useState } from 'react';
import type { CutupDetailView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { usePathChooser } from '../../parts/paths/usePathChooser.tsx';
import { cache, keys } from '../../service/cache.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';

const WAYS = [
  { ending: '.mp4', label: 'One reel (MP4)' },
  { ending: '.m3u8', label: 'Playlist (M3U8)' },
  { ending: '.csv', label: 'Its plays (CSV)' },
  { ending: '.xlsx', label: 'Its plays (XLSX)' },
] as const;

/** Writes the cut-up to a file; how far that is shows under the head. */
export function ExportMenu({ cutup }: { readonly cutup: CutupDetailView }) {
  const { choose, dialog } = usePathChooser();
  const [open, setOpen] = useState(false);
  useCommand('cutup.export', () => setOpen(true));

  const write = async (ending: (typeof WAYS)[number]['ending']) => {
    const others = WAYS.map((way) => way.ending).filter((each) => each !== ending);
    const [to] =
      (await choose({
        for: 'save',
        title: `Write ${cutup.name}`,
        suggested: `${cutup.name.replace(/[\\/:*?"<>|]/g, '-')}${ending}`,
        endings: [ending, ...others],
      })) ?? [];
    if (!to) return;
    if (await gesture(() => cutupCalls.export(cutup.cutupId, to)))
      void cache.invalidateQueries({ queryKey: keys.jobs });
  };

  return (
    <>
      <Menu opened={open} onChange={setOpen} position="bottom-end">
        <Menu.Target>
          <Button variant="filled" disabled={cutup.list.length === 0}>
            Export
          </Button>
        </Menu.Target>
        <Menu.Dropdown>
          {WAYS.map((way) => (
            <Menu.Item key={way.ending} onClick={() => void write(way.ending)}>
              {way.label}
            </Menu.Item>
          ))}
        </Menu.Dropdown>
      </Menu>
      {dialog}
    </>
  );
}
