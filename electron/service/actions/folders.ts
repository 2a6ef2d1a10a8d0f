import { type Dirent, readdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, extname, join, resolve } from 'node:path';
import { ProblemError } from '../../../football/result.ts';
import { isFilmName } from '../../film/film-files.ts';
import { naturalOrder } from '../../film/names.ts';

export interface FolderView {
  readonly path: string;
  readonly parent: string | null;
  readonly folders: readonly { name: string; path: string }[];
  readonly files: readonly { name: string; path: string; bytes: number; kind: 'film' | 'sheet' | 'other' }[];
}

/** What lies in a folder, for the file chooser of windows that have no native dialog. Hidden names are left out. */
export function listFolder(wanted: string | null): FolderView {
  const path = resolve(wanted || homedir());
  let entries: Dirent[];
  try {
    entries = readdirSync(path, { withFileTypes: true });
  } catch (error) {
    throw new ProblemError(
      {
        code: 'folder-missing',
        message: `The folder ${path} cannot be read.`,
        next: 'Choose another folder.',
      },
      { cause: error },
    );
  }
  const folders: string[] = [];
  const files: string[] = [];
  for (const entry of entries) {
    if (entry.name.startsWith('.')) continue;
    const stats = statSync(join(path, entry.name), { throwIfNoEntry: false });
    if (stats?.isDirectory()) folders.push(entry.name);
    else if (stats?.isFile()) files.push(entry.name);
  }
  const parent = dirname(path);
  return {
    path,
    parent: parent === path ? null : parent,
    folders: naturalOrder(folders).map((name) => ({ name, path: join(path, name) })),
    files: naturalOrder(files).map((name) => ({
      name,
      path: join(path, name),
      bytes: statSync(join(path, name), { throwIfNoEntry: false })?.size ?? 0,
      kind: isFilmName(name)
        ? 'film'
        : ['.csv', '.tsv', '.xlsx'].includes(extname(name).toLowerCase())
          ? 'sheet'
          : 'other',
    })),
  };
}
