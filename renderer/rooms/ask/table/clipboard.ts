/** A table as a spreadsheet takes it from the clipboard: text with tabs, and the same as HTML. */

import type { TableLayout } from './table-layout.ts';

export interface Copied {
  readonly text: string;
  readonly html: string;
}

export function tableToCopy(layout: TableLayout, rowName: string): Copied {
  const names = layout.columns.map((column, i) => {
    const width = layout.groups[0]?.columns ?? 0;
    const group = width > 0 ? layout.groups[Math.floor(i / width)]?.label : undefined;
    return [group, column.metric.name].filter(Boolean).join(' · ');
  });
  const heads = [rowName, 'Plays', ...names];
  const rows = [...layout.rows, layout.total].map((row) => [
    `${'  '.repeat(Math.max(0, row.key.length - 1))}${row.label}`,
    String(row.plays),
    // plain numbers, so that a spreadsheet counts with them; a rate as a fraction with its sign
    ...row.cells.map((cell, i) => {
      if (cell.value === null) return '';
      const { kind, decimals } = layout.columns[i]!.metric;
      return kind === 'rate' ? `${cell.value.toFixed(decimals)}%` : cell.value.toFixed(decimals);
    }),
  ]);
  const lines = [heads, ...rows];
  const cell = (tag: string) => (text: string) => `<${tag}>${escaped(text)}</${tag}>`;
  return {
    text: lines.map((line) => line.map(plain).join('\t')).join('\n'),
    html: `<table>${lines
      .map((line, i) => `<tr>${line.map((text) => cell(i === 0 ? 'th' : 'td')(plain(text))).join('')}</tr>`)
      .join('')}</table>`,
  };
}

/** No tab or line break, and nothing that a spreadsheet would run. */
function plain(text: string): string {
  const flat = text.replaceAll(/[\t\r\n]/g, ' ');
  return /^\s*[=+\-@]/.test(flat) && !/^\s*-?\d+(\.\d+)?%?$/.test(flat) ? `'${flat}` : flat;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
