import { basename } from 'node:path';
import type { FilmProblem, FilmRefusal } from './film-types.ts';

interface Words {
  readonly message: (name: string, detail: string) => string;
  readonly next: string;
}

const WORDS: Record<FilmRefusal, Words> = {
  'film-missing': {
    message: (name) => `${name} is not there.`,
    next: 'Plug the drive in, or point to the place where the film is now.',
  },
  'film-not-a-file': {
    message: (name) => `${name} is not a file.`,
    next: 'Choose the film file itself, or add the folder as a folder.',
  },
  'film-no-permission': {
    message: (name) => `${name} may not be read.`,
    next: 'Give yourself the right to read the file, or copy it to a place of your own.',
  },
  'film-empty': { message: (name) => `${name} is empty (0 bytes).`, next: 'Copy the film again.' },
  'film-is-a-list': {
    message: (name) => `${name} is a list of other files, not a film.`,
    next: 'Add the film files that it lists.',
  },
  'film-no-picture': {
    message: (name) => `${name} has no picture track.`,
    next: 'Choose a file with a picture in it.',
  },
  'film-unreadable': {
    message: (name, detail) => `${name} can't be read as film${detail ? `: ${detail}` : ''}.`,
    next: 'Open it in another player; if it plays there, convert it to MP4 and add that.',
  },
  'film-cut-short': {
    message: (name, detail) => `${name} is cut short${detail ? `: ${detail}` : ''}.`,
    next: 'Copy the film again from the camera or the drive.',
  },
  'film-absurd': {
    message: (name, detail) => `${name} claims what can't be: ${detail}.`,
    next: 'The file is damaged: copy it again, or convert it to MP4 and add that.',
  },
  'film-encrypted': {
    message: (name) => `${name} is encrypted.`,
    next: 'Ask whoever sent it for a copy without protection.',
  },
  'film-too-slow': {
    message: (name, detail) => `${name} took too long to read (over ${detail}).`,
    next: 'Copy it to a faster drive and add it from there.',
  },
  'film-tool-missing': {
    message: (name) => `${name} needs ffmpeg to be read, and none was found.`,
    next: 'Install ffmpeg, or name one in TAPEBOOK_FFMPEG, then add the film again.',
  },
  cancelled: {
    message: (name) => `${name} was not read: cancelled.`,
    next: 'Add it again when you want it.',
  },
};

/** The problem of one file, in words that name it. */
export function refusal(code: FilmRefusal, path: string, detail = ''): FilmProblem {
  const words = WORDS[code];
  return { code, path, message: words.message(basename(path), detail), next: words.next };
}
