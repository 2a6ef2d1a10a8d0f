import type { CommandTable } from './command.ts';

/** The Playbook room. */
export const PLAYBOOK_COMMANDS = {
  'playbook.terms': { label: 'Terms and families', group: 'Playbook', room: 'playbook', keys: ['1'] },
  'playbook.roster': { label: 'Roster', group: 'Playbook', room: 'playbook', keys: ['2'] },
  'playbook.reads': { label: 'Read rules', group: 'Playbook', room: 'playbook', keys: ['3'] },
  'playbook.settings': { label: 'Staff settings', group: 'Playbook', room: 'playbook', keys: ['4'] },
  'playbook.find': { label: 'Find in this list', group: 'Playbook', room: 'playbook', keys: ['/'] },
  'playbook.add': { label: 'Add to this list', group: 'Playbook', room: 'playbook', keys: ['n'] },
} satisfies CommandTable;
