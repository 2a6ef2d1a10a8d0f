/** What the command line ends with: everything done, done in part, not done. */
export type Exit = 0 | 1 | 2;

export interface Output {
  /** the result: JSON with --json, else readable lines */
  print(value: unknown, lines: () => readonly string[]): void;
  /** for the person, never for a script */
  say(line: string): void;
}

export function makeOutput(asJson: boolean): Output {
  return {
    print(value, lines) {
      const text = asJson ? JSON.stringify(value, null, 2) : lines().join('\n');
      if (text !== '') process.stdout.write(`${text}\n`);
    },
    say(line) {
      process.stderr.write(`${line}\n`);
    },
  };
}

/** Columns side by side, for reading. */
export function asColumns(header: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const widths = header.map((h, i) => Math.max(h.length, ...rows.map((r) => r[i]?.length ?? 0)));
  const line = (cells: readonly string[]) =>
    cells
      .map((c, i) => c.padEnd(widths[i] ?? 0))
      .join('  ')
      .trimEnd();
  return [line(header), line(widths.map((w) => '-'.repeat(w))), ...rows.map(line)];
}
