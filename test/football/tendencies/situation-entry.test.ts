import { describe, expect, it } from 'vitest';
import { contextFields } from '../../../football/tendencies/contexts.ts';
import { contextOf, readSituation } from '../../../football/tendencies/situation-entry.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS, termKey } from '../../../football/vocabulary/terms.ts';

const contexts = contextFields(BUILT_IN_FIELDS);
const termsSpelled = (text: string) =>
  BUILT_IN_TERMS.filter((term) =>
    [term.name, ...(term.aliases ?? [])].some((name) => termKey(name) === termKey(text)),
  );

describe('a situation as it is said on the headset', () => {
  it.each([
    ['2nd & 8, left hash, own 35, 11 personnel', 'down=2 toGo=long zone=own territory hash=L personnel=11'],
    ['3rd and long red zone trips motion: jet', 'down=3 toGo=long zone=red zone formation=trips motion=jet'],
    ['third down tied two minutes', 'down=3 scoreState=tied halfEnd=two minutes'],
    ['empty q4 behind 7 -35', 'zone=own territory scoreState=behind 1-8 formation=empty quarter=4'],
    ['1&10 at the 50', 'down=1 toGo=long zone=midfield'],
  ])('%s', (text, context) => {
    const read = readSituation(text, { contexts, termsSpelled });
    expect(
      read.ok &&
        contextOf(read.value, contexts)
          .map(({ context: c, value }) => `${c.key}=${value}`)
          .join(' '),
    ).toBe(context);
  });

  it('points at the word that is no part of it', () => {
    const read = readSituation('2nd & 8, sideways', { contexts, termsSpelled });
    expect(read).toMatchObject({ ok: false, problem: { code: 'situation-word', at: { start: 9, end: 17 } } });
  });
});
