/**
 * Patterns of LIKE: `%` is any run of characters, `_` any one, `\` before one of these (or itself) takes the meaning away.
 * Upper and lower case of A to Z are the same, as in SQLite; other letters are told apart, so that both answers agree.
 */

export type PatternShape = 'contains' | 'starts' | 'ends' | 'whole';

/** `text` as a pattern that means itself. */
export function escapeLike(text: string): string {
  return text.replace(/[\\%_]/g, '\\$&');
}

export function patternFor(shape: PatternShape, text: string): string {
  const plain = escapeLike(text);
  if (shape === 'whole') return plain;
  return `${shape === 'starts' ? '' : '%'}${plain}${shape === 'ends' ? '' : '%'}`;
}

type PatternPart = { readonly wild: '%' | '_' } | { readonly text: string };

/** The pieces of a pattern, one character each. A `\` before anything else stands for itself. */
function partsOf(pattern: string, sign = '\\'): PatternPart[] {
  const parts: PatternPart[] = [];
  const characters = [...pattern];
  for (let i = 0; i < characters.length; i++) {
    const here = characters[i]!;
    const next = characters[i + 1];
    if (here === sign && next !== undefined && (next === '%' || next === '_' || next === sign)) {
      parts.push({ text: next });
      i++;
    } else if (here === '%' || here === '_') parts.push({ wild: here });
    else parts.push({ text: here });
  }
  return parts;
}

/** The same pattern written with `\` as its only escape, each plain `\` doubled. */
export function canonicalPattern(pattern: string, sign: string | null): string {
  return partsOf(pattern, sign ?? '')
    .map((part) => ('wild' in part ? part.wild : escapeLike(part.text)))
    .join('');
}

/** What a pattern asks for in plain words, or null where it is none of the plain shapes. */
export function readPattern(pattern: string): { shape: PatternShape; text: string } | null {
  const parts = partsOf(pattern);
  const isAny = (part: PatternPart | undefined) => part !== undefined && 'wild' in part && part.wild === '%';
  const open = isAny(parts[0]);
  const close = parts.length > 1 && isAny(parts.at(-1));
  const inner = parts.slice(open ? 1 : 0, close ? -1 : undefined);
  if (inner.some((part) => 'wild' in part)) return null;
  const text = inner.map((part) => ('text' in part ? part.text : '')).join('');
  if ((open || close) && text === '') return null;
  const shape = open && close ? 'contains' : open ? 'ends' : close ? 'starts' : 'whole';
  return { shape, text };
}

/** Lower case of A to Z alone, as SQLite folds it. */
export function foldCase(text: string): string {
  return text.replace(/[A-Z]+/g, (letters) => letters.toLowerCase());
}

/** A test of texts against a pattern, in time proportional to text times pattern at worst. */
export function likeTest(pattern: string): (text: string) => boolean {
  const parts = partsOf(foldCase(pattern));
  const runs = parts.map((part) => 'wild' in part && part.wild === '%');
  const fits = (at: number, character: string): boolean => {
    const part = parts[at];
    if (!part || runs[at]) return false;
    return 'wild' in part || part.text === character;
  };
  return (text) => {
    const characters = [...foldCase(text)];
    let at = 0;
    // after the last `%`, and how far it has reached: only that one ever needs to reach further
    let afterRun = -1;
    let reached = 0;
    for (let i = 0; i < characters.length; ) {
      if (runs[at]) {
        afterRun = ++at;
        reached = i;
      } else if (fits(at, characters[i]!)) {
        at++;
        i++;
      } else if (afterRun >= 0) {
        at = afterRun;
        i = ++reached;
      } else return false;
    }
    while (runs[at]) at++;
    return at === parts.length;
  };
}
