/**
 * Short spellings of fields, and what makes sense on which kind of play.
 * A letter stands for one field only, so that `g7` and `p12` can be read without a colon.
 */

/** Other names of a field; the first is the shortest, and the one that is printed. */
export const FIELD_SHORTS: ReadonlyMap<string, readonly string[]> = new Map([
  ['quarter', ['q', 'qtr']],
  ['clock', ['time']],
  ['possession', ['ball']],
  ['yardsToGoal', ['on', 'spot']],
  ['hash', ['h']],
  ['personnel', ['pers']],
  ['formation', ['f']],
  ['receivers', ['rec']],
  ['motion', ['m']],
  ['concept', ['c']],
  ['protection', ['pro']],
  ['front', ['fr']],
  ['coverage', ['v']],
  ['pressure', ['pr']],
  ['rushers', ['r']],
  ['playKind', ['kind']],
  ['result', ['res']],
  ['gain', ['g']],
  ['airYards', ['a', 'air']],
  ['yardsAfterCatch', ['y', 'yac']],
  ['passer', ['p']],
  ['target', ['t']],
  ['carrier', ['b']],
  ['route', ['ro']],
  ['readKey', ['key']],
  ['firstDown', ['fd']],
  ['touchdown', ['td']],
  ['turnover', ['to']],
  ['safety', ['saf']],
  ['fumble', ['fum']],
  ['kickYards', ['k']],
  ['returnYards', ['ret']],
  ['penalty', ['pen', 'foul']],
  ['penaltyOn', ['by']],
  ['penaltyYards', ['py']],
  ['penaltyOutcome', ['ruling']],
  ['tackler', ['tk']],
  ['pocket', ['pkt']],
  ['endYardsToGoal', ['end']],
  ['note', ['n']],
]);

/** Flags that can be said in one word besides their key and label. */
export const FLAG_WORDS: ReadonlyMap<string, readonly string[]> = new Map([
  ['firstDown', ['fd']],
  ['touchdown', ['td']],
  ['turnover', ['to']],
  ['safety', ['saf']],
]);

/** Fields a line never sets: they belong to the game, or are worked out. */
export const isSettable = (home: string): boolean => home === 'play' || home === 'tag';

const PASS_RESULTS = ['complete', 'incomplete', 'interception', 'sack', 'scramble', 'throwaway'];
const KICK_RESULTS = ['good', 'missed', 'fairCatch', 'touchback', 'downed', 'onsideRecovered', 'muffed'];

const resultIds = (names: readonly string[]) => names.map((name) => `result:${name.toLowerCase()}`);

const KIND_OF_RESULT: ReadonlyMap<string, string> = new Map([
  ...resultIds(PASS_RESULTS).map((id) => [id, 'playKind:pass'] as const),
  ['result:rush', 'playKind:run'] as const,
]);

/** The kind of play that a result can only come from, as a term id. */
export function kindOfResult(resultId: string): string | undefined {
  return KIND_OF_RESULT.get(resultId);
}

const KICK_HAS_NO = new Set(
  'concept protection front coverage pressure route readKey receivers passer target airYards'.split(' '),
);
const RUN_HAS_NO = new Set('protection route passer target airYards yardsAfterCatch'.split(' '));
const RUN_HAS_NO_RESULT = new Set(
  resultIds([...PASS_RESULTS.filter((r) => r !== 'scramble'), ...KICK_RESULTS]),
);
const PASS_HAS_NO_RESULT = new Set(resultIds([...KICK_RESULTS, 'rush']));
const KICKS = new Set(['playKind:punt', 'playKind:kickoff', 'playKind:fieldgoal']);

/**
 * Whether a field, or a result, makes no sense on that kind of play. It only ever settles between
 * meanings: a word with one meaning keeps it. common practice, no source
 */
export function isOutOfPlace(kindId: string, fieldKey: string, termId: string | undefined): boolean {
  if (KICKS.has(kindId)) return KICK_HAS_NO.has(fieldKey);
  if (kindId === 'playKind:run')
    return RUN_HAS_NO.has(fieldKey) || (termId !== undefined && RUN_HAS_NO_RESULT.has(termId));
  if (kindId === 'playKind:pass') return termId !== undefined && PASS_HAS_NO_RESULT.has(termId);
  return false;
}
