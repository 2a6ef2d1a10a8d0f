import type { CommandTable } from './command.ts';

/** The Ask room: from the question to the table to the film without the mouse. */
export const ASK_COMMANDS = {
  'ask.viewTable': { label: 'The answer as a table', group: 'Ask', room: 'ask', keys: ['1'] },
  'ask.viewPictures': { label: 'The answer as pictures', group: 'Ask', room: 'ask', keys: ['2'] },
  'ask.viewTendencies': { label: 'Tendencies in the answer', group: 'Ask', room: 'ask', keys: ['3'] },
  'ask.viewReads': { label: 'Reads and options in the answer', group: 'Ask', room: 'ask', keys: ['4'] },
  'ask.viewReports': { label: 'Reports', group: 'Ask', room: 'ask', keys: ['5'] },
  'ask.text': { label: 'Write the question as text', group: 'Ask', room: 'ask', keys: ['/'] },
  'ask.condition': { label: 'Add a condition', group: 'Ask', room: 'ask', keys: ['n'] },
  'ask.everyPlay': { label: 'Ask for every play', group: 'Ask', room: 'ask', keys: ['Shift+n'] },
  'ask.saved': { label: 'Open a saved question', group: 'Ask', room: 'ask', keys: ['o'] },
  'ask.save': {
    label: 'Save the question',
    group: 'Ask',
    room: 'ask',
    keys: ['Mod+s'],
    keysInText: ['Mod+s'],
  },
  'ask.table': {
    label: 'Go to the table',
    group: 'Ask',
    room: 'ask',
    keys: ['t'],
    keysInText: ['Mod+Enter'],
    help: 'In the table the arrow keys move, Home and End go to the ends, Enter plays the plays of the number; on the name of a metric it sorts.',
  },
  'ask.narrow': {
    label: 'Narrow the question to the cell of the table',
    group: 'Ask',
    room: 'ask',
    keysIn: { 'ask-table': ['Shift+Enter'] },
    keysOnly: true,
  },
  'ask.playAll': { label: 'Play every play of the question', group: 'Ask', room: 'ask', keys: ['p'] },
  'ask.cutup': { label: 'Make a cut-up of the question', group: 'Ask', room: 'ask', keys: ['u'] },
  'ask.cutupOfFilm': {
    label: 'Make a cut-up of the plays that run',
    group: 'Ask',
    room: 'ask',
    keys: ['Shift+u'],
  },
  'ask.export': {
    label: 'Write the plays of the question as a table',
    group: 'Ask',
    room: 'ask',
    keys: ['Mod+e'],
    keysInText: ['Mod+e'],
  },
} satisfies CommandTable;
