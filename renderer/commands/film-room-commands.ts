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
  'films.makeProxies': {
    label: 'Make the proxies that the film shown needs',
    group: 'Film room',
    room: 'film',
    keys: ['p'],
    help: 'A proxy is a copy for viewing of film that the window cannot play. The film itself stays the source for reels.',
  },
  'films.dropProxies': {
    label: 'Drop the proxies of the film shown',
    group: 'Film room',
    room: 'film',
    keys: ['Shift+p'],
  },
  'game.box': { label: 'Box score of this game', group: 'Film room', room: 'film', keys: ['k'] },
  'game.log': { label: 'Log this game', group: 'Film room', room: 'film', keys: ['o'] },
} satisfies CommandTable;
