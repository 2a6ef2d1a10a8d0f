/** What the path chooser lists of a folder, and what a choice in it means. */

import type { FileEntry, FolderView } from '../../service/folder-calls.ts';

export type PathKind = 'film' | 'sheet' | 'folder';

export interface PathLine {
  readonly kind: 'up' | 'folder' | 'file';
  readonly name: string;
  readonly path: string;
  readonly bytes: number | null;
}

const inOrder = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** The folder above, the folders, then the files of the kind, each in the order that people number them. */
export function pathLines(view: FolderView, kind: PathKind): PathLine[] {
  const byName = (a: { name: string }, b: { name: string }) => inOrder.compare(a.name, b.name);
  const up: PathLine[] =
    view.parent === null ? [] : [{ kind: 'up', name: 'Folder above', path: view.parent, bytes: null }];
  const folders = [...view.folders]
    .sort(byName)
    .map((folder): PathLine => ({ kind: 'folder', name: folder.name, path: folder.path, bytes: null }));
  const files = kind === 'folder' ? [] : view.files.filter((file) => file.kind === kind);
  return [...up, ...folders, ...files.sort(byName).map(fileLine)];
}

function fileLine(file: FileEntry): PathLine {
  return { kind: 'file', name: file.name, path: file.path, bytes: file.bytes };
}

/** A file's path in a folder, joined as the folder's own path is written. */
export function pathIn(folder: string, name: string): string {
  const separator = folder.includes('\\') && !folder.includes('/') ? '\\' : '/';
  return folder.endsWith(separator) ? `${folder}${name}` : `${folder}${separator}${name}`;
}

/** The name with the ending, unless it has one of the endings already. */
export function withEnding(name: string, endings: readonly string[]): string {
  const lower = name.toLowerCase();
  return endings.some((ending) => lower.endsWith(ending)) ? name : `${name}${endings[0] ?? ''}`;
}
