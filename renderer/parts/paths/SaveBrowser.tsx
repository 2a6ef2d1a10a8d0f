import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { FolderPath } from './FolderPath.tsx';
import { pathIn, pathLines, withEnding } from './folder-list.ts';
import { PathList } from './PathList.tsx';
import classes from './paths.module.css';
import { useFolder } from './useFolder.ts';

interface SaveBrowserProps {
  readonly suggested: string;
  readonly endings: readonly string[];
  readonly onChosen: (path: string) => void;
}

const NONE: ReadonlySet<string> = new Set();

/** Where a file is to be written: a folder, and a name in it. */
export function SaveBrowser({ suggested, endings, onChosen }: SaveBrowserProps) {
  const folder = useFolder();
  const [name, setName] = useState(suggested);
  const lines = folder.view ? pathLines(folder.view, 'folder') : [];
  const full = withEnding(name.trim(), endings);
  const taken = folder.view?.files.some((file) => file.name === full) ?? false;
  const save = () => {
    if (!folder.view || name.trim() === '') return;
    folder.remember();
    onChosen(pathIn(folder.view.path, full));
  };
  return (
    <div className={classes.browser}>
      <TextInput
        label="Name"
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        description={endings.length > 1 ? `The ending says what is made: ${endings.join(', ')}` : undefined}
        onKeyDown={(event) => event.key === 'Enter' && save()}
        data-autofocus
        spellCheck={false}
      />
      <FolderPath
        view={folder.view}
        problem={folder.problem}
        onOpen={folder.open}
        onStartOver={folder.startOver}
      />
      <PathList
        lines={lines}
        chosen={NONE}
        many={false}
        nothing="No folder in this folder."
        onOpen={folder.open}
        onToggle={() => {}}
        onTake={() => {}}
      />
      <div className={classes.saveLine}>
        <span>{taken ? `${full} is there already and will be replaced.` : ''}</span>
        <Button variant="filled" disabled={name.trim() === '' || !folder.view} onClick={save}>
          {taken ? 'Replace' : 'Save'}
        </Button>
      </div>
    </div>
  );
}
