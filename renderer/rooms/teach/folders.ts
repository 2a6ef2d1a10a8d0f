import type { CutupView } from '../../../electron/service/views.ts';

interface Folder {
  readonly folder: string | null;
  readonly items: readonly CutupView[];
}

/** Cut-ups by folder, folders by name, those without one last, each in the order of its names. */
export function byFolder(cutups: readonly CutupView[]): Folder[] {
  const compare = new Intl.Collator('en', { numeric: true, sensitivity: 'base' }).compare;
  const folders = new Map<string | null, CutupView[]>();
  for (const cutup of cutups) {
    const folder = cutup.folder?.trim() || null;
    folders.set(folder, [...(folders.get(folder) ?? []), cutup]);
  }
  return [...folders]
    .sort(([a], [b]) => (a === null ? 1 : b === null ? -1 : compare(a, b)))
    .map(([folder, items]) => ({ folder, items: items.sort((a, b) => compare(a.name, b.name)) }));
}
