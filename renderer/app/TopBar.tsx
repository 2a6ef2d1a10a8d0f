import { ActionIcon, Tooltip } from '@mantine/core';
import { IconCommand, IconHelp } from '@tabler/icons-react';
import { Link } from 'wouter';
import { dispatcher } from '../commands/Commands.tsx';
import type { RoomName } from '../commands/command.ts';
import { useLibrary } from '../service/queries.ts';
import { JobsTray } from './JobsTray.tsx';
import { ROOMS } from './rooms.ts';
import { SavedState } from './SavedState.tsx';
import classes from './TopBar.module.css';
import { UndoButtons } from './UndoButtons.tsx';

/** Whose book this is, the rooms, and whether all of it is on disk. */
export function TopBar({ room }: { readonly room: RoomName | null }) {
  const { data: library } = useLibrary();
  return (
    <header className={classes.bar} data-noprint>
      <span className={classes.mark}>Tapebook</span>
      <nav className={classes.rooms} aria-label="Rooms">
        {ROOMS.map((each, index) => (
          <Link
            key={each.name}
            href={`/${each.name}`}
            className={classes.tab}
            aria-current={each.name === room ? 'page' : undefined}
            aria-keyshortcuts={`Control+${index + 1}`}
          >
            {each.label}
          </Link>
        ))}
      </nav>
      <span className={classes.library} title={library?.path}>
        {library?.name}
        {library?.readOnly && <em className={classes.readOnly}>read only</em>}
      </span>
      <SavedState />
      <UndoButtons />
      <JobsTray />
      <Tooltip label="Find a command (Ctrl+K)">
        <ActionIcon aria-label="Find a command" onClick={() => dispatcher.run('palette.open')}>
          <IconCommand size={17} />
        </ActionIcon>
      </Tooltip>
      <Tooltip label="All keys (?)">
        <ActionIcon aria-label="Show all keys" onClick={() => dispatcher.run('help.open')}>
          <IconHelp size={17} />
        </ActionIcon>
      </Tooltip>
    </header>
  );
}
