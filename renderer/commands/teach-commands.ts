import type { CommandTable } from './command.ts';

const inClips = (...chords: string[]) => ({ 'cutup-clips': chords });

/** The Teach room: the clips of a cut-up are walked, ordered, trimmed and dropped by key. */
export const TEACH_COMMANDS = {
  'cutup.clips': { label: 'Go to the clips of the cut-up', group: 'Teach', room: 'teach', keys: ['t'] },
  'cutup.list': { label: 'Go to the list of cut-ups', group: 'Teach', room: 'teach', keys: ['l'] },
  'cutup.new': { label: 'Make an empty cut-up', group: 'Teach', room: 'teach', keys: ['Shift+n'] },
  'clip.up': {
    label: 'Move the clip up',
    group: 'Teach',
    room: 'teach',
    keysIn: inClips('Alt+ArrowUp'),
    keysOnly: true,
  },
  'clip.down': {
    label: 'Move the clip down',
    group: 'Teach',
    room: 'teach',
    keysIn: inClips('Alt+ArrowDown'),
    keysOnly: true,
  },
  'clip.drop': {
    label: 'Drop the clip from the cut-up',
    group: 'Teach',
    room: 'teach',
    keys: ['Delete'],
    help: 'The play and its tags stay in the library.',
  },
  'clip.note': { label: 'Write a note on the clip', group: 'Teach', room: 'teach', keys: ['n'] },
  'clip.in': {
    label: 'Trim: the clip begins at the frame shown',
    group: 'Teach',
    room: 'teach',
    keys: ['i'],
  },
  'clip.out': {
    label: 'Trim: the clip ends with the frame shown',
    group: 'Teach',
    room: 'teach',
    keys: ['o'],
  },
  'clip.untrim': { label: 'Take the trim away', group: 'Teach', room: 'teach', keys: ['Shift+i'] },
  'clip.wide': {
    label: 'Show the film around the clip, to trim it longer',
    group: 'Teach',
    room: 'teach',
    keys: ['b'],
  },
  'cutup.export': {
    label: 'Export the cut-up',
    group: 'Teach',
    room: 'teach',
    keys: ['Mod+e'],
    keysInText: ['Mod+e'],
    help: 'As one MP4 reel, as an M3U8 playlist, or its plays as CSV.',
  },
} satisfies CommandTable;
