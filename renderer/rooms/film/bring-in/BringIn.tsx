import { type DragEvent, type ReactNode, useState } from 'react';
import type { FilmView, GameView, VocabularyView } from '../../../../electron/service/views.ts';
import { printValue } from '../../../../football/question/print.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { usePathChooser } from '../../../parts/paths/usePathChooser.tsx';
import { cache, keys } from '../../../service/cache.ts';
import { desktop } from '../../../service/desktop.ts';
import { filmCalls } from '../../../service/film-calls.ts';
import { gesture } from '../../../service/gesture.ts';
import { tellDone, tellProblem } from '../../../service/problems.ts';
import { sheetCalls } from '../../../service/sheet-calls.ts';
import classes from '../film.module.css';
import { SheetImport } from '../sheet/SheetImport.tsx';
import { AddFilmDialog } from './AddFilmDialog.tsx';
import { sortDropped } from './dropped.ts';

export interface BringInActions {
  readonly addFiles: () => void;
  readonly addFolder: () => void;
  readonly importSheet: () => void;
  readonly exportSheet: (ending: '.csv' | '.xlsx') => void;
  readonly relink: (film: FilmView) => void;
  readonly relinkFolder: () => void;
}

interface BringInProps {
  readonly game: GameView | null;
  readonly games: readonly GameView[];
  readonly vocabulary: VocabularyView;
  readonly children: (actions: BringInActions) => ReactNode;
}

/** Everything by which film and plays come into the room: buttons, keys, and files dropped on it. */
export function BringIn({ game, games, vocabulary, children }: BringInProps) {
  const { choose, dialog } = usePathChooser();
  const [films, setFilms] = useState<readonly string[] | null>(null);
  const [sheet, setSheet] = useState<string | null>(null);
  const [dragged, setDragged] = useState(false);

  const chooseFilm = async (kind: 'film' | 'folder') => {
    const title = kind === 'film' ? 'Choose film files' : 'Choose a folder of film';
    const paths = await choose({ for: 'open', kind, title, many: kind === 'film' });
    if (paths && paths.length > 0) setFilms(paths);
  };
  const chooseSheet = async () => {
    const [path] = (await choose({ for: 'open', kind: 'sheet', title: 'Choose a sheet', many: false })) ?? [];
    if (path) setSheet(path);
  };
  const exportSheet = async (ending: '.csv' | '.xlsx') => {
    if (!game) return;
    const [to] =
      (await choose({
        for: 'save',
        title: `Write the plays of ${game.title} as a table`,
        suggested: `${game.title}${ending}`,
        endings: ending === '.csv' ? ['.csv', '.xlsx'] : ['.xlsx', '.csv'],
      })) ?? [];
    if (!to) return;
    const written = await gesture(() => sheetCalls.export(`game = ${printValue(game.title)}`, to));
    if (written) tellDone(`${written.rows} plays written to ${written.path}`);
  };
  const relink = async (film: FilmView) => {
    const [path] =
      (await choose({ for: 'open', kind: 'film', title: `Where is ${film.name} now?`, many: false })) ?? [];
    if (!path) return;
    if (await gesture(() => filmCalls.relink(film.filmId, path))) {
      tellDone(`${film.name} is found again.`);
      void cache.invalidateQueries({ queryKey: keys.films });
    }
  };
  const relinkFolder = async () => {
    const [folder] =
      (await choose({ for: 'open', kind: 'folder', title: 'Choose where the film is now', many: false })) ??
      [];
    if (!folder) return;
    const found = await gesture(() => filmCalls.relinkFolder(folder));
    if (!found) return;
    tellDone(`${found.found} found, ${found.missing} still missing.`);
    void cache.invalidateQueries({ queryKey: keys.films });
  };

  const drop = async (event: DragEvent) => {
    event.preventDefault();
    setDragged(false);
    const bridge = desktop();
    const files = [...event.dataTransfer.files];
    if (files.length === 0) return;
    if (!bridge) {
      tellProblem({
        code: 'drop-without-paths',
        message: 'A browser does not say where dropped files lie, and Tapebook does not copy film.',
        next: 'Choose the same files in the list that opens now.',
      });
      if (sortDropped(files.map((file) => file.name)).sheets.length > 0) await chooseSheet();
      else await chooseFilm('film');
      return;
    }
    const paths = await Promise.all(files.map((file) => bridge.pathForFile(file)));
    const { films: dropped, sheets } = sortDropped(paths.filter((path) => path !== null));
    if (sheets[0]) setSheet(sheets[0]);
    if (dropped.length > 0) setFilms(dropped);
  };

  useCommand('films.add', () => void chooseFilm('film'));
  useCommand('films.addFolder', () => void chooseFilm('folder'));
  useCommand('sheet.import', () => void chooseSheet());
  useCommand('sheet.export', () => void exportSheet('.csv'));
  useCommand('films.relinkFolder', () => void relinkFolder());

  return (
    // the buttons and keys of the room do the same
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping files is the mouse's way to what buttons and keys do
    <div
      className={classes.drop}
      onDragOver={(event) => {
        event.preventDefault();
        setDragged(true);
      }}
      onDragLeave={(event) => event.currentTarget === event.target && setDragged(false)}
      onDrop={(event) => void drop(event)}
    >
      {children({
        addFiles: () => void chooseFilm('film'),
        addFolder: () => void chooseFilm('folder'),
        importSheet: () => void chooseSheet(),
        exportSheet: (ending) => void exportSheet(ending),
        relink: (film) => void relink(film),
        relinkFolder: () => void relinkFolder(),
      })}
      {dragged && <div className={classes.dropHere}>Drop film or a sheet here</div>}
      {dialog}
      {films && <AddFilmDialog paths={films} game={game} games={games} onClose={() => setFilms(null)} />}
      {sheet && (
        <SheetImport
          key={sheet}
          path={sheet}
          game={game}
          games={games}
          vocabulary={vocabulary}
          onClose={() => setSheet(null)}
        />
      )}
    </div>
  );
}
