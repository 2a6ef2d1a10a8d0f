import { Tabs } from '@mantine/core';
import { Suspense } from 'react';
import type { CommandName } from '../../commands/all-commands.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { useStore } from '../../state/store.ts';
import classes from './ask.module.css';
import { askActions, askStore } from './ask-store.ts';
import { ASK_VIEWS, type AskViewName, type AskViewProps } from './views.ts';

/** The answer seen one way at a time: as a table, as pictures, and so on. */
export function AnswerViews({ vocabulary }: AskViewProps) {
  const { view } = useStore(askStore);
  const open = ASK_VIEWS.some((each) => each.name === view) ? view : 'table';
  return (
    <Tabs
      value={open}
      onChange={(next) => next && askActions.view(next as AskViewName)}
      keepMounted={false}
      classNames={{ root: classes.views ?? '', panel: classes.view ?? '', list: classes.tabs ?? '' }}
      data-print-flow
    >
      <Tabs.List aria-label="Ways to look at the answer" data-noprint>
        {ASK_VIEWS.map(({ name, label, command }, index) => (
          <Tabs.Tab key={name} value={name} title={`${label} (${index + 1})`}>
            {label}
            <ViewKey command={command} name={name} />
          </Tabs.Tab>
        ))}
      </Tabs.List>
      {ASK_VIEWS.map(({ name, Page }) => (
        <Tabs.Panel key={name} value={name} data-print-flow>
          <Suspense fallback={null}>
            <Page vocabulary={vocabulary} />
          </Suspense>
        </Tabs.Panel>
      ))}
    </Tabs>
  );
}

function ViewKey({ command, name }: { readonly command: CommandName; readonly name: AskViewName }) {
  useCommand(command, () => askActions.view(name));
  return null;
}
