import {
  buildHistory,
  completeLogLine,
  indexVocabulary,
  rankTerms,
  readLogLine,
} from '../../football/log-line/index.ts';
import { blankPlay } from '../../football/play.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS, termId } from '../../football/vocabulary/terms.ts';
import { record } from './record.ts';

/** What a key on the log line costs, with a thousand terms beside the first playbook and 20,000 plays logged. */
const median = (times: number[]) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
const fields = ['concept', 'formation', 'coverage', 'front', 'motion'];
const index = indexVocabulary({
  fields: BUILT_IN_FIELDS,
  terms: [
    ...BUILT_IN_TERMS.map((t) => ({
      id: termId(t.field, t.name),
      field: t.field,
      name: t.name,
      aliases: t.aliases ?? [],
    })),
    ...Array.from({ length: 1000 }, (_, n) => ({
      id: `x:${n}`,
      field: fields[n % 5] ?? '',
      name: `term ${n} of ours`,
      aliases: [],
    })),
  ],
  players: [],
  teams: { ours: 'Herons', opponent: 'Mariners' },
});
const line = '2&7 -35 l 11 trips jet c:stick c3 sky r4 pass c g9 a6 y3 12@84 fd';
const keys: number[] = [];
for (let round = 0; round < 8; round += 1) {
  for (let length = 1; length <= line.length; length += 1) {
    const start = performance.now();
    readLogLine(line.slice(0, length), index, { play: { possession: 'Herons' } });
    keys.push(performance.now() - start);
  }
}
record('reading the log line after a key', median(keys), 1, 'ms');

const names = BUILT_IN_TERMS.filter((t) => t.field === 'concept').map((t) => t.name);
const history = buildHistory(
  BUILT_IN_FIELDS,
  Array.from({ length: 20_000 }, (_, n) => ({
    ...blankPlay(`p${n}`, 'g'),
    possession: n % 2 ? 'Herons' : 'Mariners',
    down: (n % 4) + 1,
    distance: (n % 11) + 1,
    tags: { personnel: ['11', '12', '21'][n % 3] ?? '11', concept: names[(n * 13) % names.length] ?? '' },
  })),
);
const context = { play: { possession: 'Herons', down: 2, distance: 7, tags: { personnel: '11' } } };
const ranks: number[] = [];
const offers: number[] = [];
for (let round = 0; round < 40; round += 1) {
  let start = performance.now();
  rankTerms(history, context)('concept');
  ranks.push(performance.now() - start);
  start = performance.now();
  completeLogLine('2&7 c:s', 7, index, context, (on) => rankTerms(history, on));
  offers.push(performance.now() - start);
}
record('what is likely, over 20,000 plays', median(ranks), 2, 'ms');
record('suggestions for a word, ranked', median(offers), 5, 'ms');
