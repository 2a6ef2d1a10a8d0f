import type { CommandDefinition, CommandTable } from './command.ts';

const LINE = ['log-line', 'log-line-empty'] as const;
const inLine = (...chords: string[]) => Object.fromEntries(LINE.map((place) => [place, chords]));

type Digit = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9;

const CHOICES = Object.fromEntries(
  [1, 2, 3, 4, 5, 6, 7, 8, 9].map((n): [string, CommandDefinition] => [
    `line.choose${n}`,
    {
      label: `Settle the word that asks with choice ${n}`,
      group: 'Log line',
      room: 'log',
      keysIn: { 'log-line': [`Alt+[Digit${n}]`] },
      keysOnly: true,
    },
  ]),
) as Record<`line.choose${Digit}`, CommandDefinition>;

/** The Log room. The right hand stamps moments on the number row while the left hand runs the film. */
export const LOG_COMMANDS = {
  'line.focus': { label: 'Type on the log line', group: 'Log line', room: 'log', keys: ['Enter', '/'] },
  'line.leave': {
    label: 'Leave the log line for the film keys',
    group: 'Log line',
    room: 'log',
    keysIn: inLine('Escape'),
    keysOnly: true,
  },
  'line.commit': {
    label: 'Log the line and go to the next play',
    group: 'Log line',
    room: 'log',
    keysIn: inLine('Enter'),
    keysOnly: true,
  },
  'line.commitStay': {
    label: 'Log the line and stay on this play',
    group: 'Log line',
    room: 'log',
    keysIn: inLine('Shift+Enter'),
    keysOnly: true,
  },
  'line.complete': {
    label: 'Take the suggestion',
    group: 'Log line',
    room: 'log',
    keysIn: { 'log-line': ['Tab'] },
    keysOnly: true,
  },
  'line.nextSuggestion': {
    label: 'Next suggestion',
    group: 'Log line',
    room: 'log',
    keysIn: { 'log-line': ['ArrowDown'] },
    keysOnly: true,
  },
  'line.previousSuggestion': {
    label: 'Previous suggestion',
    group: 'Log line',
    room: 'log',
    keysIn: { 'log-line': ['ArrowUp'] },
    keysOnly: true,
  },
  'line.recall': {
    label: 'Bring the fields of this play into the line',
    group: 'Log line',
    room: 'log',
    keysIn: { 'log-line-empty': ['ArrowUp'] },
    keysOnly: true,
  },
  ...CHOICES,
  'moment.snap': {
    label: 'Stamp the snap',
    group: 'Moments',
    room: 'log',
    keys: ['[Digit1]'],
    keysIn: { 'log-line-empty': ['Alt+[Digit1]'] },
  },
  'moment.release': {
    label: 'Stamp the release',
    group: 'Moments',
    room: 'log',
    keys: ['[Digit2]'],
    keysIn: { 'log-line-empty': ['Alt+[Digit2]'] },
  },
  'moment.catch': {
    label: 'Stamp the catch',
    group: 'Moments',
    room: 'log',
    keys: ['[Digit3]'],
    keysIn: { 'log-line-empty': ['Alt+[Digit3]'] },
  },
  'moment.contact': {
    label: 'Stamp the contact',
    group: 'Moments',
    room: 'log',
    keys: ['[Digit4]'],
    keysIn: { 'log-line-empty': ['Alt+[Digit4]'] },
  },
  'moment.whistle': {
    label: 'Stamp the whistle',
    group: 'Moments',
    room: 'log',
    keys: ['[Digit5]'],
    keysIn: { 'log-line-empty': ['Alt+[Digit5]'] },
  },
  'clip.in': {
    label: 'Mark in: the next play starts on this frame',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyI]'],
    keysInText: ['Alt+[KeyI]'],
    help: 'In a long recording: mark in, run on, mark out, and the play is there with its clip.',
  },
  'clip.out': {
    label: 'Mark out: the play ends with this frame',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyO]'],
    keysInText: ['Alt+[KeyO]'],
  },
  'clip.trimIn': {
    label: 'This play’s clip starts on this frame',
    group: 'Plays',
    room: 'log',
    keys: ['Shift+[KeyI]'],
    keysInText: ['Alt+Shift+[KeyI]'],
  },
  'clip.trimOut': {
    label: 'This play’s clip ends with this frame',
    group: 'Plays',
    room: 'log',
    keys: ['Shift+[KeyO]'],
    keysInText: ['Alt+Shift+[KeyO]'],
  },
  'play.add': { label: 'Add a play after this one', group: 'Plays', room: 'log', keys: ['Mod+Enter'] },
  'play.remove': { label: 'Remove this play', group: 'Plays', room: 'log', keys: ['Mod+Delete'] },
  'drive.previous': {
    label: 'Previous drive',
    group: 'Plays',
    room: 'log',
    keys: ['Shift+[KeyQ]', 'Shift+PageUp'],
    keysInText: ['Alt+Shift+[KeyQ]'],
  },
  'drive.next': {
    label: 'Next drive',
    group: 'Plays',
    room: 'log',
    keys: ['Shift+[KeyE]', 'Shift+PageDown'],
    keysInText: ['Alt+Shift+[KeyE]'],
  },
  'play.nextUnlogged': {
    label: 'Next play that is not logged',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyN]'],
    keysInText: ['Alt+[KeyN]'],
  },
  'card.edit': {
    label: 'Edit a field of the play card',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyT]'],
    keysInText: ['Alt+[KeyT]'],
  },
  'prediction.accept': {
    label: 'Accept the predicted situation',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyY]'],
    keysInText: ['Alt+[KeyY]'],
  },
  'audit.fix': {
    label: 'Settle what cannot be right on this play',
    help: 'Makes the one change that is offered; undo takes it back.',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyU]'],
    keysInText: ['Alt+[KeyU]'],
  },
  'audit.next': {
    label: 'Next play on which something cannot be right',
    group: 'Plays',
    room: 'log',
    keys: ['Shift+[KeyU]'],
    keysInText: ['Alt+Shift+[KeyU]'],
  },
  'log.grid': {
    label: 'Grid for many plays, or back to the film',
    group: 'Plays',
    room: 'log',
    keys: ['[KeyB]'],
  },
} satisfies CommandTable;
