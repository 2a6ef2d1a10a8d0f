/**
 * What the names of film files tell: their order, the angle, the play. All of it is a guess from words and numbers that
 * film is commonly named with (common practice, no source), offered to the coach and never taken as a fact.
 */
import type { Angle } from './angle.ts';

const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

function byName(one: string, other: string): number {
  return collator.compare(one, other) || (one < other ? -1 : one > other ? 1 : 0);
}

/** Sorts names as people count: play 2 before play 10. Gives a new list. */
export function naturalOrder(names: readonly string[]): string[] {
  return [...names].sort(byName);
}

const ANGLE_WORDS: ReadonlyMap<string, Angle> = new Map([
  ...['sideline', 'side', 'sl', 'wide', 'pressbox'].map((word) => [word, 'sideline'] as const),
  ...['endzone', 'end', 'ez', 'tight', 'goalpost'].map((word) => [word, 'endzone'] as const),
  ...['scoreboard', 'scorebug', 'board', 'broadcast', 'tv', 'drone'].map((word) => [word, 'other'] as const),
]);

function withoutEnding(name: string): string {
  return name.replace(/\.[a-z0-9]{1,5}$/i, '');
}

/** Words of a name: `GameFilm_EZ-07.mp4` -> game, film, ez, 07. */
function wordsOf(name: string): string[] {
  const spaced = withoutEnding(name)
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Za-z])(\d)/g, '$1 $2')
    .replace(/(\d)([A-Za-z])/g, '$1 $2');
  return spaced
    .toLowerCase()
    .replace(/\b(end|side)[\s_-]+(zone|line)\b/g, '$1$2')
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');
}

function angleOf(name: string): Angle | null {
  const found = new Set(wordsOf(name).flatMap((word) => ANGLE_WORDS.get(word) ?? []));
  return found.size === 1 ? [...found][0]! : null;
}

/**
 * The angle that a file's name tells, else that of the folder it lies in; null when the words are missing or
 * contradict each other. Takes a path with either kind of slash.
 */
export function guessAngle(path: string): Angle | null {
  const parts = path.split(/[\\/]/);
  return angleOf(parts.at(-1) ?? '') ?? (parts.length > 1 ? angleOf(`${parts.at(-2)}.d`) : null);
}

const PLAY_LABELS = /^(?:play|pl|p|snap|no|nr|clip)$/;
/** Words before a number that say that it is something else: a card's counter, a camera, a quarter, a week. */
const OTHER_LABELS =
  /^(?:mvi|dsc|dscf|img|vid|gx|gh|gopr|gp|mov|pxl|dji|c|cam|camera|card|q|qtr|quarter|half|week|wk|game|gm|drive|dr|v|ver|take|part|pt|season)$/;
const OTHER_UNITS = /^(?:p|i|fps|k|hz|st|nd|rd|th|mbps)$/;
const LARGEST_PLAY = 400;

interface NumberInName {
  readonly value: number;
  /** the word before, for telling numbers of one list apart */
  readonly place: number;
  readonly labelled: boolean;
}

function numbersIn(path: string): NumberInName[] {
  const name = path.split(/[\\/]/).at(-1) ?? '';
  const dateless = withoutEnding(name).replace(/(?:19|20)\d\d[-_. ]?\d\d[-_. ]?\d\d(?:[-_T ]?\d{6})?/g, ' ');
  const sizeless = dateless.replace(/\d{3,4}[pi]\d{0,3}\b/gi, ' ');
  const marked = sizeless.replace(/#(?=\d)/g, ' play ');
  const words = wordsOf(`${marked}.d`);
  const numbers: NumberInName[] = [];
  for (const [place, word] of words.entries()) {
    if (!/^\d{1,5}$/.test(word)) continue;
    const before = words[place - 1] ?? '';
    const after = words[place + 1] ?? '';
    const value = Number(word);
    const year = word.length === 4 && /^(?:19|20)/.test(word);
    const resolution = OTHER_UNITS.test(after) && (value >= 240 || after !== 'p') && value >= 2;
    const ordinal = /^(?:st|nd|rd|th)$/.test(after);
    if (OTHER_LABELS.test(before) || year || resolution || ordinal) continue;
    if (value < 1 || value > LARGEST_PLAY) continue;
    numbers.push({ value, place, labelled: PLAY_LABELS.test(before) });
  }
  return numbers;
}

/** The play number that one name tells by itself: a labelled number, else its only number; else null. */
export function guessPlayNumber(path: string): number | null {
  const numbers = numbersIn(path);
  const labelled = numbers.filter((number) => number.labelled);
  if (labelled.length === 1) return labelled[0]!.value;
  return labelled.length === 0 && numbers.length === 1 ? numbers[0]!.value : null;
}

/**
 * Play numbers of a set of files that belong together. Where a name holds several numbers, the one that counts is the
 * one that changes from file to file; names whose numbers stay undecided give null.
 */
export function guessPlayNumbers(paths: readonly string[]): (number | null)[] {
  const found = paths.map(numbersIn);
  const shapes = new Map<string, number[]>();
  for (const [index, numbers] of found.entries()) {
    const angle = guessAngle(paths[index]!) ?? '';
    const shape = `${angle}|${numbers.map((number) => number.place).join(',')}`;
    shapes.set(shape, [...(shapes.get(shape) ?? []), index]);
  }
  const guesses = paths.map(guessPlayNumber);
  for (const indexes of shapes.values()) {
    const width = found[indexes[0]!]!.length;
    if (width < 2 || indexes.length < 2 || indexes.every((index) => guesses[index] !== null)) continue;
    const distinct = Array.from(
      { length: width },
      (_, column) => new Set(indexes.map((index) => found[index]![column]!.value)).size,
    );
    const most = Math.max(...distinct);
    if (most < indexes.length || distinct.filter((count) => count === most).length !== 1) continue;
    const column = distinct.indexOf(most);
    for (const index of indexes) guesses[index] = found[index]![column]!.value;
  }
  return guesses;
}
