import { Button, Group } from '@mantine/core';
import { useState } from 'react';
import { FolderPath } from './FolderPath.tsx';
import { type PathKind, pathLines } from './folder-list.ts';
import { PathList } from './PathList.tsx';
import classes from './paths.module.css';
import { useFolder } from './useFolder.ts';

interface FolderBrowserProps {
  readonly kind: PathKind;
  readonly many: boolean;
  readonly onChosen: (paths: readonly string[]) => void;
}

const NOTHING: Readonly<Record<PathKind, string>> = {
  film: 'No film in this folder.',
  sheet: 'No CSV or XLSX sheet in this folder.',
  folder: 'No folder in this folder.',
};

/** Looks through the folders of the station's machine for files of one kind, or for a folder. */
export function FolderBrowser({ kind, many, onChosen }: FolderBrowserProps) {
  const folder = useFolder();
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const lines = folder.view ? pathLines(folder.view, kind) : [];
  const files = lines.filter((line) => line.kind === 'file');

  const finish = (paths: readonly string[]) => {
    folder.remember();
    onChosen(paths);
  };
  const open = (path: string) => {
    setChosen(new Set());
    folder.open(path);
  };
  const toggle = (path: string) =>
    setChosen((now) => {
      const next = new Set(many ? now : []);
      if (now.has(path)) next.delete(path);
      else next.add(path);
      return next;
    });

  return (
    <div className={classes.browser}>
      <FolderPath view={folder.view} problem={folder.problem} onOpen={open} onStartOver={folder.startOver} />
      <PathList
        lines={lines}
        chosen={chosen}
        many={many}
        nothing={NOTHING[kind]}
        onOpen={open}
        onToggle={toggle}
        onTake={(path) => finish([...chosen, path])}
      />
      <Group justify="flex-end" gap="sm">
        {many && files.length > 0 && (
          <Button onClick={() => setChosen(new Set(files.map((file) => file.path)))}>
            Mark all {files.length}
          </Button>
        )}
        {kind !== 'sheet' && folder.view && (
          <Button
            variant={kind === 'folder' ? 'filled' : 'default'}
            onClick={() => finish([folder.view!.path])}
          >
            Take this whole folder
          </Button>
        )}
        {kind !== 'folder' && (
          <Button variant="filled" disabled={chosen.size === 0} onClick={() => finish([...chosen])}>
            {chosen.size > 1 ? `Take ${chosen.size} files` : 'Take the file'}
          </Button>
        )}
      </Group>
    </div>
  );
}
