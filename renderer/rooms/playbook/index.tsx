import { Tabs } from '@mantine/core';
import { useState } from 'react';
import { useCommand } from '../../commands/Commands.tsx';
import { useVocabulary } from '../../service/queries.ts';
import { readSetting, writeSetting } from '../../state/settings.ts';
import classes from './playbook.module.css';
import { ReadRules } from './reads/ReadRules.tsx';
import { Roster } from './roster/Roster.tsx';
import { StaffSettings } from './StaffSettings.tsx';
import { Terms } from './terms/Terms.tsx';

const PAGES = [
  ['terms', 'Terms and families'],
  ['roster', 'Roster'],
  ['reads', 'Read rules'],
  ['settings', 'Staff settings'],
] as const;

type Page = (typeof PAGES)[number][0];

/** The staff's vocabulary: fields and terms, people, read rules, and the choices its numbers depend on. */
export default function PlaybookRoom() {
  const { data: vocabulary } = useVocabulary();
  const [page, setPage] = useState<Page>(() => readSetting<Page>('playbook.page', 'terms'));
  const open = (next: Page) => {
    setPage(next);
    writeSetting('playbook.page', next);
  };
  useCommand('playbook.terms', () => open('terms'));
  useCommand('playbook.roster', () => open('roster'));
  useCommand('playbook.reads', () => open('reads'));
  useCommand('playbook.settings', () => open('settings'));
  useCommand('playbook.find', () => focusOn('[data-playbook-find]'));
  useCommand('playbook.add', () => focusOn('[data-playbook-add]'));
  if (!vocabulary) return null;
  return (
    <Tabs
      value={page}
      onChange={(next) => next && open(next as Page)}
      keepMounted={false}
      classNames={{ root: classes.room, panel: classes.panel, list: classes.tabs }}
    >
      <h1 className="unseen">Playbook</h1>
      <Tabs.List aria-label="Parts of the playbook" data-noprint>
        {PAGES.map(([name, label], index) => (
          <Tabs.Tab key={name} value={name} title={`${label} (${index + 1})`}>
            {label}
          </Tabs.Tab>
        ))}
      </Tabs.List>
      <Tabs.Panel value="terms">
        <Terms vocabulary={vocabulary} />
      </Tabs.Panel>
      <Tabs.Panel value="roster">
        <Roster vocabulary={vocabulary} />
      </Tabs.Panel>
      <Tabs.Panel value="reads">
        <ReadRules vocabulary={vocabulary} />
      </Tabs.Panel>
      <Tabs.Panel value="settings">
        <StaffSettings />
      </Tabs.Panel>
    </Tabs>
  );
}

function focusOn(selector: string): void {
  const found = document.querySelector<HTMLElement>(selector);
  (found?.matches('input, button') ? found : found?.querySelector<HTMLElement>('input, button'))?.focus();
}
