import { z } from 'zod';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import type { StationVocabulary } from '../../vocabulary.ts';

/** How a sheet's columns and values become ours; remembered per set of columns. */
export interface SheetMap {
  /** their column -> our field key */
  readonly columns: Readonly<Record<string, string>>;
  /** our field key -> their value -> our value; an empty value leaves the field out */
  readonly values: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

/** A map as it comes from outside: either part may be missing, and nothing else may be in it. */
export const GIVEN_MAP = z
  .strictObject({
    columns: z.record(z.string(), z.string()),
    values: z.record(
      z.string(),
      z.record(z.string(), z.union([z.string(), z.number(), z.boolean()]).transform(String)),
    ),
  })
  .partial();

/** Spellings of our fields that sheets use; letters and digits alone, small. common practice, no source */
const HEADINGS: Readonly<Record<string, readonly string[]>> = {
  game: ['game', 'gametitle', 'gameid'],
  season: ['season', 'year'],
  drive: ['drive', 'drivenumber'],
  playNumber: ['playnumber', 'play', 'playno', 'playnum', 'number', 'playid'],
  quarter: ['quarter', 'qtr', 'period'],
  clock: ['clock', 'time', 'gameclock', 'timeleft'],
  possession: ['possession', 'offense', 'offence', 'possessionteam', 'posteam', 'offenseteam', 'team'],
  down: ['down', 'dn'],
  distance: ['distance', 'dist', 'togo', 'ydstogo', 'yardstogo'],
  yardsToGoal: [
    'yardstogoal',
    'ballon',
    'spot',
    'yardline',
    'yardline100',
    'fieldposition',
    'yardstoendzone',
  ],
  hash: ['hash', 'hashmark', 'startinghash'],
  personnel: ['personnel', 'offensivepersonnel', 'grouping'],
  formation: ['formation', 'form', 'offenseformation', 'offensiveformation'],
  receivers: ['receivers', 'receiveralignment', 'distribution'],
  motion: ['motion', 'shift'],
  concept: ['concept', 'call', 'playcall', 'playconcept', 'passconcept', 'runconcept'],
  protection: ['protection', 'pro', 'passprotection'],
  front: ['front', 'defensivefront', 'defensefront'],
  coverage: ['coverage', 'cov', 'passcoverage', 'defensivecoverage'],
  pressure: ['pressure', 'blitz', 'rush'],
  rushers: ['rushers', 'numberofpassrushers', 'passrushers', 'numrushers'],
  playKind: ['playkind', 'kind', 'playtype', 'type'],
  result: ['result', 'playresult', 'passresult', 'outcome'],
  gain: ['gain', 'yards', 'yardsgained', 'gainloss', 'yds'],
  airYards: ['airyards', 'passlength', 'depth', 'depthoftarget'],
  yardsAfterCatch: ['yardsaftercatch', 'yac', 'aftercatch'],
  passer: ['passer', 'qb', 'quarterback', 'passername'],
  target: ['target', 'receiver', 'targetedreceiver', 'receivername', 'intendedreceiver'],
  carrier: ['carrier', 'rusher', 'ballcarrier', 'runner', 'rushername'],
  route: ['route', 'targetroute', 'routeoftargetedreceiver'],
  readKey: ['readkey', 'read', 'key'],
  firstDown: ['firstdown', '1stdown'],
  touchdown: ['touchdown', 'td'],
  turnover: ['turnover', 'to'],
  penalty: ['penalty', 'foul', 'penaltytype'],
  note: ['note', 'notes', 'comment', 'comments', 'remarks', 'description'],
};

function heading(text: string): string {
  return text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

/** The fields that a sheet can fill: those of a play, and the game's title and season. */
export function sheetFields(vocabulary: StationVocabulary): FieldDefinition[] {
  return vocabulary.fields.all.filter((f) => f.home !== 'derived');
}

/** What the columns' names say, where exactly one column says it. Everything can be changed by the user. */
export function guessMap(columns: readonly string[], vocabulary: StationVocabulary): SheetMap {
  const guesses = new Map<string, string>();
  const taken = new Set<string>();
  const fields = sheetFields(vocabulary);
  const tests: ((field: FieldDefinition, column: string) => boolean)[] = [
    (f, c) => f.key === c || heading(f.key) === heading(c) || heading(f.label) === heading(c),
    (f, c) => HEADINGS[f.key]?.includes(heading(c)) ?? false,
  ];
  for (const test of tests) {
    for (const column of columns) {
      if (guesses.has(column)) continue;
      const field = fields.find((f) => !taken.has(f.key) && test(f, column));
      if (!field) continue;
      guesses.set(column, field.key);
      taken.add(field.key);
    }
  }
  return { columns: Object.fromEntries(guesses), values: {} };
}

/** Sheets with the same columns, in whatever order, are taken to be of the same kind. */
export function mapKey(columns: readonly string[]): string {
  return `sheetMap:${JSON.stringify([...columns].sort())}`;
}
