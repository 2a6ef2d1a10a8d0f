import type { CommandTable } from './command.ts';

/** What works everywhere. */
export const STATION_COMMANDS = {
  'room.film': { label: 'Go to the Film room', group: 'Station', keys: ['Mod+1'], keysInText: ['Mod+1'] },
  'room.log': { label: 'Go to the Log room', group: 'Station', keys: ['Mod+2'], keysInText: ['Mod+2'] },
  'room.ask': { label: 'Go to the Ask room', group: 'Station', keys: ['Mod+3'], keysInText: ['Mod+3'] },
  'room.teach': { label: 'Go to the Teach room', group: 'Station', keys: ['Mod+4'], keysInText: ['Mod+4'] },
  'room.playbook': {
    label: 'Go to the Playbook room',
    group: 'Station',
    keys: ['Mod+5'],
    keysInText: ['Mod+5'],
  },
  'edit.undo': {
    label: 'Undo',
    group: 'Station',
    keys: ['Mod+z'],
    keysIn: { 'log-line': ['Mod+Alt+z'], 'log-line-empty': ['Mod+z'] },
    help: 'Takes back the last gesture, without limit and after a restart. While a line is being typed, Ctrl+Z takes back typing and Ctrl+Alt+Z the last gesture.',
  },
  'edit.redo': {
    label: 'Redo',
    group: 'Station',
    keys: ['Mod+Shift+z'],
    keysIn: { 'log-line': ['Mod+Alt+Shift+z'], 'log-line-empty': ['Mod+Shift+z'] },
  },
  'palette.open': {
    label: 'Find a command',
    group: 'Station',
    keys: ['Mod+k'],
    keysInText: ['Mod+k'],
    keysOnly: true,
  },
  'help.open': { label: 'Show all keys', group: 'Station', keys: ['?'], keysInText: ['F1'] },
  'jobs.open': { label: 'Show running work', group: 'Station', keys: ['Mod+j'], keysInText: ['Mod+j'] },
  'page.print': { label: 'Print this room', group: 'Station', keys: ['Mod+p'], keysInText: ['Mod+p'] },
} satisfies CommandTable;
