import { IconCheck, IconCornerLeftUp, IconFile, IconFolder } from '@tabler/icons-react';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { bytesInWords } from '../bytes.ts';
import type { PathLine } from './folder-list.ts';
import classes from './paths.module.css';

interface PathListProps {
  readonly lines: readonly PathLine[];
  readonly chosen: ReadonlySet<string>;
  readonly many: boolean;
  readonly nothing: string;
  readonly onOpen: (path: string) => void;
  readonly onToggle: (path: string) => void;
  /** Enter, or a double click, on a file */
  readonly onTake: (path: string) => void;
}

const ICONS = { up: IconCornerLeftUp, folder: IconFolder, file: IconFile };

/** Folders and files; arrow keys move, Enter opens or takes, Space marks. */
export function PathList(props: PathListProps) {
  const { lines, chosen } = props;
  const [at, setAt] = useState(0);
  const list = useRef<HTMLUListElement>(null);
  const first = lines[0]?.path;
  // another folder: begin at its first line
  useEffect(() => setAt(0), [first]);

  const go = (to: number) => {
    const next = Math.max(0, Math.min(lines.length - 1, to));
    setAt(next);
    list.current?.children[next]?.scrollIntoView({ block: 'nearest' });
  };
  const act = (line: PathLine | undefined) => {
    if (!line) return;
    if (line.kind === 'file') props.onTake(line.path);
    else props.onOpen(line.path);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const line = lines[at];
    if (event.key === 'ArrowDown') go(at + 1);
    else if (event.key === 'ArrowUp') go(at - 1);
    else if (event.key === 'Home') go(0);
    else if (event.key === 'End') go(lines.length - 1);
    else if (event.key === 'Enter') act(line);
    else if (event.key === ' ' && line?.kind === 'file') props.onToggle(line.path);
    else if (event.key === 'Backspace' && lines[0]?.kind === 'up') props.onOpen(lines[0].path);
    else return;
    event.preventDefault();
  };

  return (
    <div className={classes.frame}>
      <ul
        ref={list}
        className={classes.list}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the lines are options that arrow keys walk through
        role="listbox"
        aria-label="Folders and files"
        aria-multiselectable={props.many}
        aria-activedescendant={lines.length > 0 ? `path-${at}` : undefined}
        tabIndex={0}
        onKeyDown={onKeyDown}
        data-autofocus
      >
        {lines.map((line, index) => {
          const Icon = ICONS[line.kind];
          const marked = chosen.has(line.path);
          return (
            // biome-ignore lint/a11y/useKeyWithClickEvents: the list around it hears the keys
            // biome-ignore lint/a11y/useFocusableInteractive: the list has the focus and names the active option
            <li
              key={line.path}
              id={`path-${index}`}
              // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: an option of the list box around it
              role="option"
              aria-selected={marked}
              data-at={index === at}
              className={classes.line}
              onClick={() => {
                go(index);
                if (line.kind === 'file') props.onToggle(line.path);
                else props.onOpen(line.path);
              }}
              onDoubleClick={() => line.kind === 'file' && props.onTake(line.path)}
            >
              <Icon size={15} aria-hidden />
              <span className={classes.name}>{line.name}</span>
              {line.bytes !== null && <span className={classes.bytes}>{bytesInWords(line.bytes)}</span>}
              <span className={classes.mark}>{marked && <IconCheck size={15} aria-hidden />}</span>
            </li>
          );
        })}
      </ul>
      {!lines.some((line) => line.kind !== 'up') && <p className={classes.nothing}>{props.nothing}</p>}
    </div>
  );
}
