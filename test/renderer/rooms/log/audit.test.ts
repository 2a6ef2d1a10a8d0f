import { describe, expect, it } from 'vitest';
import type { PlayView } from '../../../../electron/service/views.ts';
import { makeAuditor } from '../../../../football/audit/audit.ts';
import { indexVocabulary, readLogLine } from '../../../../football/log-line/index.ts';
import { blankPlay, type PlayRecord } from '../../../../football/play.ts';
import { rulesFor } from '../../../../football/rules/index.ts';
import { BUILT_IN_FIELDS } from '../../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS, termId } from '../../../../football/vocabulary/terms.ts';
import { typedRecord } from '../../../../renderer/rooms/log/audit/typed-record.ts';

const index = indexVocabulary({
  fields: BUILT_IN_FIELDS,
  terms: BUILT_IN_TERMS.map((t) => ({
    id: termId(t.field, t.name),
    field: t.field,
    name: t.name,
    aliases: t.aliases ?? [],
  })),
  players: [],
  teams: { ours: 'Herons', opponent: 'Mariners' },
});

function view(record: Partial<PlayRecord>, prediction: PlayView['prediction'] = null): PlayView {
  const whole = { ...blankPlay(`p${record.playNumber}`, 'g'), ...record };
  return {
    playId: whole.playId,
    gameId: 'g',
    record: whole,
    predicted: [],
    prediction,
    predictionReason: null,
    clips: [],
    stamped: [],
    logged: false,
  };
}

const first = view({
  playNumber: 1,
  quarter: 1,
  possession: 'Herons',
  down: 1,
  distance: 10,
  yardsToGoal: 75,
  playKind: 'run',
  result: 'rush',
  gain: 4,
  scoreFor: 0,
  scoreAgainst: 0,
});
const prediction = {
  quarter: 1,
  clock: null,
  possession: 'Herons',
  down: 2,
  distance: 6,
  yardsToGoal: 71,
  hash: null,
  scoreFor: 0,
  scoreAgainst: 0,
};
const second = view({ playNumber: 2 }, prediction);

/** What the audit says while the second play's line is being typed. */
function whileTyping(line: string) {
  const audit = makeAuditor(rulesFor('ncaa'), { home: 'Herons', away: 'Mariners' });
  return audit([first.record, typedRecord(second, readLogLine(line, index, { play: second.record }))]);
}

describe('the audit while a line is typed', () => {
  it('is silent while what is typed follows from the play before', () => {
    expect(whileTyping('run ru g3')).toEqual([]);
    expect(whileTyping('2&6 -29 run ru g3')).toEqual([]);
  });

  it('says it the moment a situation cannot be, with the one change that settles it', () => {
    const [finding] = whileTyping('3&6 -29 run ru g3');
    expect(finding).toMatchObject({ playId: 'p2' });
    expect(finding?.message.length).toBeGreaterThan(20);
    expect(whileTyping('2&6 +29 run ru g3').length).toBeGreaterThan(0);
  });

  it('leaves a play of which nothing is typed as it is stored', () => {
    expect(typedRecord(first, readLogLine('', index))).toBe(first.record);
  });
});
