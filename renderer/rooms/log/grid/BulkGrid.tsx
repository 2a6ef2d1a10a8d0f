import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import type { FilmTimeView, PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import type { VocabularyIndex } from '../../../../football/log-line/index.ts';
import { formatPlain } from '../../../../football/values.ts';
import { FieldEditor } from '../card/FieldEditor.tsx';
import { useFieldEdits } from '../card/use-field-edits.ts';
import { shownField } from '../known-play.ts';
import { BulkBar } from './BulkBar.tsx';
import classes from './BulkGrid.module.css';
import { gridColumns } from './grid-columns.ts';

const ROW = 27;
const HEAD = 62;
const noFilm = (): FilmTimeView | null => null;

interface Cell {
  readonly row: number;
  /** -1 is the play's own column, which chooses it */
  readonly column: number;
}

/** Many plays as a table, for mending: arrow keys move, Enter or typing edits, Space chooses plays for one value. */
export function BulkGrid(props: {
  readonly plays: readonly PlayView[];
  readonly vocabulary: VocabularyView;
  readonly index: VocabularyIndex;
  readonly startAt: number;
  readonly onOpen: (playId: string) => void;
}) {
  const { plays, vocabulary, index, startAt, onOpen } = props;
  const columns = useMemo(() => gridColumns(vocabulary.fields), [vocabulary.fields]);
  const [cell, setCell] = useState<Cell>({ row: Math.max(0, startAt), column: -1 });
  const [editing, setEditing] = useState<{ readonly text: string; readonly begun: boolean } | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [anchor, setAnchor] = useState(cell.row);
  const scroll = useRef<HTMLDivElement>(null);
  const edits = useFieldEdits(noFilm);
  const rows = useVirtualizer({
    count: plays.length,
    getScrollElement: () => scroll.current,
    estimateSize: () => ROW,
    overscan: 12,
    initialOffset: Math.max(0, (startAt - 6) * ROW),
  });
  const template = `${HEAD}px ${columns.map((column) => `${column.width}px`).join(' ')}`;
  const width = HEAD + columns.reduce((sum, column) => sum + column.width, 0);

  const focusCell = (next: Cell) => {
    setCell(next);
    rows.scrollToIndex(next.row, { align: 'auto' });
    requestAnimationFrame(() =>
      scroll.current?.querySelector<HTMLElement>(`[data-cell="${next.row}:${next.column}"]`)?.focus(),
    );
  };
  const move = (down: number, right: number) =>
    focusCell({
      row: Math.max(0, Math.min(plays.length - 1, cell.row + down)),
      column: Math.max(-1, Math.min(columns.length - 1, cell.column + right)),
    });
  const choose = (row: number, upTo: boolean) => {
    const [from, to] = upTo ? [Math.min(anchor, row), Math.max(anchor, row)] : [row, row];
    const ids = plays.slice(from, to + 1).map((play) => play.playId);
    setChosen((now) => {
      const next = new Set(now);
      const taking = upTo || !ids.every((id) => next.has(id));
      for (const id of ids) taking ? next.add(id) : next.delete(id);
      return next;
    });
    setAnchor(row);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (editing !== null || event.ctrlKey || event.metaKey || event.altKey) return;
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowDown: [1, 0],
      ArrowUp: [-1, 0],
      ArrowRight: [0, 1],
      ArrowLeft: [0, -1],
      PageDown: [15, 0],
      PageUp: [-15, 0],
      Home: [0, -99],
      End: [0, 99],
    };
    const step = steps[event.key];
    if (step) move(...step);
    else if (event.key === ' ') choose(cell.row, event.shiftKey);
    else if (event.key === 'Enter' && cell.column < 0) onOpen(plays[cell.row]!.playId);
    else if (event.key === 'Enter') setEditing({ text: shownText(cell), begun: false });
    else if (event.key === 'Delete') setEditing({ text: '', begun: true });
    else if (event.key.length === 1 && cell.column >= 0) setEditing({ text: event.key, begun: true });
    else return;
    event.preventDefault();
  };
  const shownText = ({ row, column }: Cell) => {
    const field = columns[column]?.field;
    return field ? formatPlain(field, shownField(plays[row]!, field).value) : '';
  };

  return (
    <section className={classes.grid} aria-label="Grid of plays">
      <BulkBar
        chosen={plays.filter((play) => chosen.has(play.playId))}
        columns={columns}
        vocabulary={vocabulary}
        index={index}
        onClear={() => setChosen(new Set())}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: a table element cannot hold rows that are drawn as they come in sight */}
      <div
        ref={scroll}
        className={classes.scroll}
        role="grid"
        tabIndex={-1}
        aria-label="Plays and their fields"
        aria-rowcount={plays.length + 1}
        aria-colcount={columns.length + 1}
        aria-multiselectable
        onKeyDown={onKeyDown}
      >
        {/* biome-ignore lint/a11y/useSemanticElements: see the grid */}
        <div
          className={classes.head}
          role="row"
          tabIndex={-1}
          aria-rowindex={1}
          style={{ gridTemplateColumns: template, width }}
        >
          {/* biome-ignore lint/a11y/useSemanticElements: see the grid */}
          {/* biome-ignore lint/a11y/useFocusableInteractive: the cells take the focus, not their headings */}
          <span role="columnheader">Play</span>
          {columns.map(({ field }) => (
            // biome-ignore lint/a11y/useSemanticElements: see the grid
            // biome-ignore lint/a11y/useFocusableInteractive: the cells take the focus, not their headings
            <span key={field.key} role="columnheader" title={field.help}>
              {field.label}
            </span>
          ))}
        </div>
        <div className={classes.body} role="presentation" style={{ height: rows.getTotalSize(), width }}>
          {rows.getVirtualItems().map((row) => {
            const play = plays[row.index]!;
            return (
              // biome-ignore lint/a11y/useSemanticElements: see the grid
              // biome-ignore lint/a11y/useFocusableInteractive: the cells take the focus, not their row
              <div
                key={play.playId}
                className={classes.row}
                role="row"
                aria-rowindex={row.index + 2}
                aria-selected={chosen.has(play.playId)}
                style={{ gridTemplateColumns: template, transform: `translateY(${row.start}px)` }}
              >
                {columns.map(({ field }, at) => {
                  const column = at;
                  const here = cell.row === row.index && cell.column === column;
                  const shown = shownField(play, field);
                  const text = formatPlain(field, shown.value);
                  return (
                    // biome-ignore lint/a11y/useSemanticElements: see the grid
                    <div
                      key={field.key}
                      role="gridcell"
                      className={classes.cell}
                      style={{ gridColumn: column + 2 }}
                      data-cell={`${row.index}:${column}`}
                      data-standing={shown.standing}
                      tabIndex={here ? 0 : -1}
                      title={shown.standing === 'predicted' ? 'predicted' : undefined}
                      onFocus={() => setCell({ row: row.index, column })}
                      onDoubleClick={() => setEditing({ text, begun: false })}
                    >
                      {here && editing !== null ? (
                        <FieldEditor
                          field={field}
                          play={play}
                          initial={editing.text}
                          begun={editing.begun}
                          vocabulary={vocabulary}
                          index={index}
                          onLeave={() => {
                            setEditing(null);
                            focusCell(cell);
                          }}
                          onKeep={(edit) => {
                            void edits.send(play, field, edit);
                            setEditing(null);
                            if (edit.then === 'stay') move(1, 0);
                            else move(0, edit.then === 'next' ? 1 : -1);
                          }}
                        />
                      ) : edits.isSaving(play, field) ? (
                        <em>saving</em>
                      ) : (
                        text
                      )}
                    </div>
                  );
                })}
                {/* biome-ignore lint/a11y/useSemanticElements: see the grid */}
                <div
                  role="rowheader"
                  className={classes.number}
                  style={{ gridColumn: 1, gridRow: 1 }}
                  data-cell={`${row.index}:-1`}
                  tabIndex={cell.row === row.index && cell.column === -1 ? 0 : -1}
                  onFocus={() => setCell({ row: row.index, column: -1 })}
                  onClick={(event) => choose(row.index, event.shiftKey)}
                  onKeyDown={() => undefined}
                  onDoubleClick={() => onOpen(play.playId)}
                >
                  <i aria-hidden>{chosen.has(play.playId) ? '■' : '□'}</i>
                  {play.record.playNumber ?? '–'}
                </div>
              </div>
            );
          })}
        </div>
      </div>
    </section>
  );
}
