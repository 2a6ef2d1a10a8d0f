import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type LogLineReading, readLogLine } from '../../../football/log-line/index.ts';
import { FIELD_SHORTS } from '../../../football/log-line/shorthand.ts';
import { displayOf } from '../../../football/log-line/spell.ts';
import { HERONS, index } from './playbook.ts';

const page = readFileSync(new URL('../../../football/log-line/README.md', import.meta.url), 'utf8');

const rows = [...page.matchAll(/^\| (.+) \|$/gm)].map((match) =>
  match[1]!.split('|').map((cell) => cell.trim()),
);
const examples = rows.flatMap(([typed, means, more]) => {
  const line = /^`(.+)`$/.exec(typed ?? '')?.[1];
  return line && means && more === undefined ? [[line, means] as const] : [];
});

/** What the page says beside an example, from what the line was read as. */
function meaning({ tokens, changes, problems, ready }: LogLineReading): string {
  if (ready) return displayOf(index, changes);
  const shown = (status: string) => tokens.filter((token) => token.status === status);
  const [unfinished] = shown('incomplete');
  if (unfinished) return `unfinished: ${problems[0]!.message}`;
  const conflict = shown('conflict').map((token) => token.display);
  if (conflict.length > 0) return `conflict: ${conflict.join(', ')}`;
  const asked = shown('ambiguous').flatMap((token) => token.candidates.map(({ display }) => display));
  return asked.length > 0 ? `asks: ${asked.join(', ')}` : 'unknown';
}

describe('the page on the log line', () => {
  it('has examples', () => {
    expect(examples.length).toBeGreaterThan(60);
  });

  it.each(examples)('says what %s means', (line, means) => {
    expect(meaning(readLogLine(line, index, { play: { possession: HERONS } }))).toBe(means);
  });

  it('opens with a line that can be committed', () => {
    const line = /^ {4}(\S.*)$/m.exec(page)![1]!;
    expect(readLogLine(line, index, { play: { possession: HERONS } }).ready).toBe(true);
  });

  it('lists the short name of every field that has one', () => {
    const listed = new Map<string, string>();
    for (const row of rows)
      for (let at = 0; at + 1 < row.length; at += 2) {
        const short = /^`(.+)`$/.exec(row[at + 1]!)?.[1];
        if (short) listed.set(row[at]!, short);
      }
    for (const [key, [short]] of FIELD_SHORTS) expect([key, listed.get(key)]).toEqual([key, short]);
  });
});
