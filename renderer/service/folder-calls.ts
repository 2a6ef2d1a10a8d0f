import { answer, api } from './api.ts';

export type FolderView = Awaited<ReturnType<typeof openFolder>>;
export type FileEntry = FolderView['files'][number];

/** What lies in a folder of the station's machine; without a path, where it makes sense to begin. */
export const openFolder = (path?: string) => answer(api.folders.$get({ query: path ? { path } : {} }));
