import { extname } from 'node:path';

/** Endings of files that cameras and staffs use for film; what a file really is, its content tells. */
const ENDINGS: ReadonlySet<string> = new Set([
  '.mp4',
  '.m4v',
  '.mov',
  '.mkv',
  '.webm',
  '.avi',
  '.mts',
  '.m2ts',
  '.ts',
  '.mpg',
  '.mpeg',
  '.wmv',
]);

/** Whether a file's name looks like film, for picking the films out of a folder. */
export function isFilmName(name: string): boolean {
  return ENDINGS.has(extname(name).toLowerCase());
}
