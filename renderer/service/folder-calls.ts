import { ask } from './http.ts';

export interface FolderEntry {
  readonly name: string;
  readonly path: string;
}

export interface FileEntry extends FolderEntry {
  readonly bytes: number;
  readonly kind: 'film' | 'sheet' | 'other';
}

export interface FolderView {
  readonly path: string;
  readonly parent: string | null;
  readonly folders: readonly FolderEntry[];
  readonly files: readonly FileEntry[];
}

/** What lies in a folder of the station's machine; without a path, where it makes sense to begin. */
export const openFolder = (path?: string) =>
  ask<FolderView>(path ? `/api/folders?path=${encodeURIComponent(path)}` : '/api/folders');
