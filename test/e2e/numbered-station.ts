import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type FilmKind, makeFilmKinds } from '../fixtures/film-kinds.ts';
import { ROOT } from './stations.ts';

function tapebook(...words: string[]): string {
  const run = spawnSync(process.execPath, [join(ROOT, 'dist/service/cli.mjs'), ...words], {
    encoding: 'utf8',
  });
  if (run.status !== 0) throw new Error(`tapebook ${words.join(' ')}: ${run.stderr}`);
  return run.stdout;
}

/** A library of its own with the given films in it, one play a file. */
export function libraryOf(folder: string, paths: readonly string[], name = 'numbered'): string {
  const library = join(folder, `${name}.tapebook`);
  const common = ['--library', library, '--json'];
  tapebook('new', '--team', 'Harlow Ridge Herons', '--level', 'ncaa', ...common);
  tapebook(
    'film',
    'add',
    ...paths,
    '--game',
    'Numbered film',
    '--angle',
    'sideline',
    '--one-play-per-file',
    ...common,
  );
  return library;
}

/** A library in which each play is numbered film of another kind; the first `most` kinds only, where it is given. */
export async function numberedStation(
  frames: number,
  most?: number,
): Promise<{ library: string; kinds: FilmKind[]; remove(): void }> {
  const folder = mkdtempSync(join(tmpdir(), 'tapebook-numbered-'));
  const kinds = (await makeFilmKinds(join(folder, 'film'), frames)).slice(0, most);
  const library = libraryOf(
    folder,
    kinds.map((kind) => kind.path),
  );
  return { library, kinds, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
