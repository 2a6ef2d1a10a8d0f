/** Plays brought down to what a tendency is counted from: the call, the game, and the context before the snap. */

export interface TendencyRow {
  readonly playId: string;
  readonly gameId: string;
  readonly call: string;
  /** one value a context field, in the order of the fields; null where it is not known */
  readonly context: readonly (string | null)[];
}

/** The same as small whole numbers. */
export interface CodedPlays {
  readonly playIds: readonly string[];
  readonly callNames: readonly string[];
  readonly calls: Int32Array;
  /** index of the game, in the order in which games first occur */
  readonly games: Int32Array;
  readonly gameCount: number;
  /** per context field, per play: index into `values` of the field; -1 where it is not known */
  readonly contexts: readonly Int32Array[];
  readonly values: readonly (readonly string[])[];
}

/** @param fields how many context fields each row has */
export function codePlays(rows: readonly TendencyRow[], fields: number): CodedPlays {
  const calls = new Coder();
  const games = new Coder();
  const coders = Array.from({ length: fields }, () => new Coder());
  const coded = {
    calls: new Int32Array(rows.length),
    games: new Int32Array(rows.length),
    contexts: coders.map(() => new Int32Array(rows.length)),
  };
  for (const [i, row] of rows.entries()) {
    coded.calls[i] = calls.code(row.call);
    coded.games[i] = games.code(row.gameId);
    for (const [f, coder] of coders.entries()) {
      const value = row.context[f] ?? null;
      coded.contexts[f]![i] = value === null ? -1 : coder.code(value);
    }
  }
  return {
    ...coded,
    playIds: rows.map((row) => row.playId),
    callNames: calls.names,
    gameCount: games.names.length,
    values: coders.map((coder) => coder.names),
  };
}

class Coder {
  readonly names: string[] = [];
  private readonly codes = new Map<string, number>();

  code(name: string): number {
    let code = this.codes.get(name);
    if (code === undefined) {
      code = this.names.push(name) - 1;
      this.codes.set(name, code);
    }
    return code;
  }
}
