import type { CommandTable } from './command.ts';

/** The Film room: games, film and sheets come in here. */
export const FILM_ROOM_COMMANDS = {
  'films.add': { label: 'Bring film in', group: 'Film room', room: 'film', keys: ['b'] },
  'films.addFolder': {
    label: 'Bring a whole folder of film in',
    group: 'Film room',
    room: 'film',
    keys: ['Shift+b'],
  },
  'game.add': { label: 'Add a game', group: 'Film room', room: 'film', keys: ['n'] },
  'sheet.import': { label: 'Bring plays in from a sheet', group: 'Film room', room: 'film', keys: ['m'] },
  'sheet.export': {
    label: 'Write the plays of the game as a table',
    group: 'Film room',
    room: 'film',
    keys: ['Mod+e'],
    keysInText: ['Mod+e'],
  },
  'films.relinkFolder': {
    label: 'Find missing film in a folder',
    group: 'Film room',
    room: 'film',
    keys: ['l'],
  },
  'game.box': { label: 'Box score of this game', group: 'Film room', room: 'film', keys: ['k'] },
  'game.log': { label: 'Log this game', group: 'Film room', room: 'film', keys: ['o'] },
} satisfies CommandTable;
