import { Button, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Problem } from '../../../football/result.ts';
import type { FolderView } from '../../service/folder-calls.ts';
import classes from './paths.module.css';

interface FolderPathProps {
  readonly view: FolderView | undefined;
  readonly problem: Problem | null;
  readonly onOpen: (path: string) => void;
  readonly onStartOver: () => void;
}

/** The open folder's path, which can be typed or pasted. */
export function FolderPath({ view, problem, onOpen, onStartOver }: FolderPathProps) {
  const [typed, setTyped] = useState('');
  useEffect(() => setTyped(view?.path ?? ''), [view?.path]);
  return (
    <>
      <form
        className={classes.path}
        onSubmit={(event) => {
          event.preventDefault();
          onOpen(typed);
        }}
      >
        <TextInput
          aria-label="Folder"
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
          spellCheck={false}
        />
        <Button type="submit">Open</Button>
      </form>
      {problem && (
        <p role="alert" className={classes.problem}>
          {problem.message} {problem.next}{' '}
          <Button size="compact-xs" onClick={onStartOver}>
            Begin at home
          </Button>
        </p>
      )}
    </>
  );
}
