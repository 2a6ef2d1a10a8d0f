import type { CommandTable } from './command.ts';

/**
 * The film obeys the left hand: the middle row is play and single frames, the row above it moves between plays and
 * runs the play back, the row below jumps. By place, so that they lie together on every keyboard. In a text field the
 * same keys work with Alt held.
 */
export const FILM_COMMANDS = {
  'film.play': {
    label: 'Play or pause',
    group: 'Film',
    keys: ['[KeyS]', 'Space'],
    keysInText: ['Alt+[KeyS]'],
    keysIn: { 'log-line-empty': ['Space'] },
  },
  'film.back': {
    label: 'One frame back; held, it runs back',
    group: 'Film',
    help: 'As long as the key is down, at the speed that is set; it stops on the frame shown.',
    keys: ['[KeyA]', 'ArrowLeft'],
    keysInText: ['Alt+[KeyA]', 'Alt+ArrowLeft'],
    keysIn: { 'log-line-empty': ['ArrowLeft'] },
  },
  'film.forward': {
    label: 'One frame forward; held, it runs on',
    group: 'Film',
    keys: ['[KeyD]', 'ArrowRight'],
    keysInText: ['Alt+[KeyD]', 'Alt+ArrowRight'],
    keysIn: { 'log-line-empty': ['ArrowRight'] },
  },
  'film.reverse': {
    label: 'Play backwards, or pause',
    group: 'Film',
    keys: ['Shift+[KeyS]'],
    keysInText: ['Alt+Shift+[KeyS]'],
  },
  'film.backSlower': {
    label: 'Backwards; again: half, quarter, full speed',
    group: 'Film',
    keys: ['Shift+[KeyA]'],
    keysInText: ['Alt+Shift+[KeyA]'],
  },
  'film.forwardSlower': {
    label: 'Forwards; again: half, quarter, full speed',
    group: 'Film',
    keys: ['Shift+[KeyD]'],
    keysInText: ['Alt+Shift+[KeyD]'],
  },
  'film.runBack': {
    label: 'Run it back: the play from its first frame',
    group: 'Film',
    keys: ['[KeyR]', 'Home'],
    keysInText: ['Alt+[KeyR]'],
  },
  'film.slower': {
    label: 'Speed: full, half, quarter',
    group: 'Film',
    keys: ['[KeyF]'],
    keysInText: ['Alt+[KeyF]'],
  },
  'film.jumpBack': {
    label: 'One second back',
    group: 'Film',
    keys: ['[KeyZ]', 'Shift+ArrowLeft'],
    keysInText: ['Alt+[KeyZ]', 'Alt+Shift+ArrowLeft'],
  },
  'film.jumpForward': {
    label: 'One second forward',
    group: 'Film',
    keys: ['[KeyX]', 'Shift+ArrowRight'],
    keysInText: ['Alt+[KeyX]', 'Alt+Shift+ArrowRight'],
  },
  'film.snap': {
    label: 'To the snap, where it is stamped',
    group: 'Film',
    keys: ['[KeyC]'],
    keysInText: ['Alt+[KeyC]'],
  },
  'film.angle': {
    label: 'Other angle, at the same instant',
    group: 'Film',
    keys: ['[KeyW]'],
    keysInText: ['Alt+[KeyW]'],
    help: 'With two angles on the screen they change places.',
  },
  'film.layout': {
    label: 'Angles: one, side by side, one above the other, picture in picture',
    group: 'Film',
    keys: ['Shift+[KeyW]'],
    keysInText: ['Alt+Shift+[KeyW]'],
  },
  'film.mateEarlier': {
    label: 'Second angle one frame earlier',
    group: 'Film',
    keys: ['Shift+[KeyZ]'],
    keysInText: ['Alt+Shift+[KeyZ]'],
    help: 'Two angles are held together by the snap where it is stamped on both, else by time code, else by their clips’ starts; what is set by hand comes first and is kept in the library.',
  },
  'film.mateLater': {
    label: 'Second angle one frame later',
    group: 'Film',
    keys: ['Shift+[KeyX]'],
    keysInText: ['Alt+Shift+[KeyX]'],
  },
  'film.mateFree': {
    label: 'Angles no longer held together by hand',
    group: 'Film',
    keys: ['Shift+[KeyC]'],
    keysInText: ['Alt+Shift+[KeyC]'],
  },
  'film.whole': {
    label: 'Whole film, or this clip only',
    group: 'Film',
    keys: ['[KeyV]'],
    keysInText: ['Alt+[KeyV]'],
    help: 'On the whole film the play’s bounds do not stop it; that is how plays are found in a long recording.',
  },
  'film.full': {
    label: 'Film over the whole window, or back',
    group: 'Film',
    keys: ['[KeyG]'],
    keysInText: ['Alt+[KeyG]'],
  },
  'play.previous': {
    label: 'Previous play',
    group: 'Plays',
    keys: ['[KeyQ]', 'PageUp'],
    keysInText: ['Alt+[KeyQ]', 'PageUp'],
  },
  'play.next': {
    label: 'Next play',
    group: 'Plays',
    keys: ['[KeyE]', 'PageDown'],
    keysInText: ['Alt+[KeyE]', 'PageDown'],
  },
  'playlist.close': { label: 'Close the film over the room', group: 'Plays', keys: ['Escape'] },
} satisfies CommandTable;
