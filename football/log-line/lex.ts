/** Cuts a line into pieces: words, `field:value` pairs, quoted strings and the note behind a semicolon. */

import { parseClock } from '../values.ts';
import { spellingKey } from './index-vocabulary.ts';

export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly kind: 'word' | 'quoted' | 'note';
  /** what stands before the colon of `name:value` */
  readonly name?: string;
  /** the word, without its name, quotes and doubled quotes */
  readonly value: string;
  /** the value as words of the vocabulary */
  readonly words: readonly string[];
  readonly valueStart: number;
  readonly valueQuoted: boolean;
  /** a quote that was opened and not closed */
  readonly open: boolean;
}

const isBlank = (char: string | undefined) => char === undefined || /[\s,]/.test(char);

/** Reads a quoted string whose opening quote stands at `from`; a doubled quote stands for one. */
function readQuoted(line: string, from: number): { value: string; end: number; open: boolean } {
  let value = '';
  let at = from + 1;
  while (at < line.length) {
    if (line[at] === '"') {
      if (line[at + 1] !== '"') return { value, end: at + 1, open: false };
      at += 1;
    }
    value += line[at];
    at += 1;
  }
  return { value, end: at, open: true };
}

function wordEnd(line: string, from: number): number {
  let at = from;
  while (!isBlank(line[at])) at += 1;
  return at;
}

/** `isName` says whether the text before a colon names a field; a colon after anything else is part of the word. */
export function cutLine(line: string, isName: (name: string) => boolean): Piece[] {
  const pieces: Piece[] = [];
  const add = (piece: Omit<Piece, 'words'>) => {
    pieces.push({ ...piece, words: spellingKey(piece.value).split(' ') });
  };
  let at = 0;
  while (at < line.length) {
    if (isBlank(line[at])) {
      at += 1;
      continue;
    }
    const start = at;
    if (line[at] === ';') {
      const valueStart = at + 1;
      const value = line.slice(valueStart).trim();
      const end = start + line.slice(start).trimEnd().length;
      add({ start, end, kind: 'note', value, valueStart, valueQuoted: false, open: false });
      break;
    }
    if (line[at] === '"') {
      const quoted = readQuoted(line, at);
      add({
        start,
        end: quoted.end,
        kind: 'quoted',
        value: quoted.value,
        valueStart: start,
        valueQuoted: true,
        open: quoted.open,
      });
      at = quoted.end;
      continue;
    }
    const end = wordEnd(line, at);
    const word = line.slice(start, end);
    const name = parseClock(word) === null ? /^([^:"]+):/.exec(word)?.[1] : undefined;
    if (name === undefined || !isName(name)) {
      const value = word;
      add({ start, end, kind: 'word', value, valueStart: start, valueQuoted: false, open: false });
      at = end;
      continue;
    }
    const valueStart = start + name.length + 1;
    if (line[valueStart] === '"') {
      const quoted = readQuoted(line, valueStart);
      add({
        start,
        end: quoted.end,
        kind: 'word',
        name,
        value: quoted.value,
        valueStart,
        valueQuoted: true,
        open: quoted.open,
      });
      at = quoted.end;
      continue;
    }
    add({
      start,
      end,
      kind: 'word',
      name,
      value: line.slice(valueStart, end),
      valueStart,
      valueQuoted: false,
      open: false,
    });
    at = end;
  }
  return pieces;
}

/** `text` as it must stand in a line to be taken literally. */
export function quote(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}
