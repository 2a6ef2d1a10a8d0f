import { Autocomplete, Button } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { GameView, VocabularyView } from '../../../../electron/service/views.ts';
import { Dialog } from '../../../parts/Dialog.tsx';
import { cache } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { problemFrom } from '../../../service/http.ts';
import { type SheetMapping, type SheetReport, sheetCalls } from '../../../service/sheet-calls.ts';
import { ColumnMap } from './ColumnMap.tsx';
import { SheetDone } from './SheetDone.tsx';
import classes from './sheet.module.css';
import { ValueMap } from './ValueMap.tsx';

interface SheetImportProps {
  readonly path: string;
  readonly game: GameView | null;
  readonly games: readonly GameView[];
  readonly vocabulary: VocabularyView;
  readonly onClose: () => void;
}

/** A breakdown sheet before it comes in: how its columns and values are read, which can be changed, then the report. */
export function SheetImport(props: SheetImportProps) {
  const { path, game, games, vocabulary, onClose } = props;
  const [map, setMap] = useState<SheetMapping | null>(null);
  const [title, setTitle] = useState(game?.title ?? '');
  const [report, setReport] = useState<SheetReport | null>(null);
  const [sending, setSending] = useState(false);
  const { data: preview, error } = useQuery({
    queryKey: ['sheet', path, map],
    queryFn: () => sheetCalls.preview(path, map),
    placeholderData: keepPreviousData,
    staleTime: 0,
    retry: false,
  });
  const problem = error ? problemFrom(error) : null;
  const namesGame = preview?.columns.some((column) => column.field === 'game') ?? false;
  const ready = preview && !preview.trouble && (namesGame || title.trim() !== '');

  const bringIn = async () => {
    if (!preview || sending) return;
    setSending(true);
    const done = await gesture(() => sheetCalls.import(path, title.trim() || null, preview.map));
    setSending(false);
    if (!done) return;
    setReport(done);
    // a whole game may have come in; nothing that was read before can be trusted
    void cache.invalidateQueries();
  };

  return (
    <Dialog
      opened
      onClose={onClose}
      title={`Plays from ${path.replace(/^.*[\\/]/, '')}`}
      size="min(1160px, 96vw)"
    >
      {problem && (
        <p role="alert" className={classes.trouble}>
          {problem.message} {problem.next}
        </p>
      )}
      {report && <SheetDone report={report} vocabulary={vocabulary} onClose={onClose} />}
      {preview && !report && (
        <div className={classes.sheet}>
          <p className={classes.lead}>
            {preview.rows} rows. Columns and values were matched by their names
            {' and what was chosen the last time'}; change what is wrong. Rows of plays that are there already
            change those plays, so the same sheet can come twice.
          </p>
          {preview.trouble && (
            <p role="alert" className={classes.trouble}>
              {preview.trouble}
            </p>
          )}
          <div className={classes.maps}>
            <ColumnMap
              columns={preview.columns}
              fields={vocabulary.fields}
              map={preview.map}
              onChange={setMap}
            />
            <ValueMap values={preview.values} vocabulary={vocabulary} map={preview.map} onChange={setMap} />
          </div>
          <div className={classes.foot}>
            <Autocomplete
              size="xs"
              w={300}
              label={namesGame ? 'Game of rows that name none' : 'Game'}
              data={games.map((each) => each.title)}
              value={title}
              onChange={setTitle}
            />
            <Button variant="filled" loading={sending} disabled={!ready} onClick={() => void bringIn()}>
              Bring {preview.rows} rows in
            </Button>
          </div>
        </div>
      )}
    </Dialog>
  );
}
