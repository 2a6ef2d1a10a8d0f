/** Words that are read by their form and not by the vocabulary: `2&7`, `-35`, `7:42`, `s14-10`, `g7`, `@84`, `d15`. */
import { numberTrouble, parseClock, parseFlag, parseNumber, parseSpot } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { termId } from '../vocabulary/terms.ts';
import type { VocabularyIndex } from './index-vocabulary.ts';
import { fieldsNamed } from './lookup.ts';
import { findPlayers } from './people.ts';
import { type Reading, readingOf, type Scope, type Trouble } from './readings.ts';
import { isSettable } from './shorthand.ts';
import { sayNumber } from './spell.ts';
import type { FieldChange } from './types.ts';

export interface FormReading {
  readonly readings: readonly Reading[];
  readonly incomplete?: Trouble;
  readonly trouble?: Trouble;
  readonly remark?: Trouble;
}

const nothing = (trouble: Trouble): FormReading => ({ readings: [], trouble });
const incomplete = (message: string): FormReading => ({
  readings: [],
  incomplete: { code: 'incomplete', message },
});

/** A number in a field: a reading, or why not. */
function numberReading(index: VocabularyIndex, field: FieldDefinition, number: number): FormReading {
  const message = numberTrouble(field, number);
  if (message) return nothing({ code: 'number-out-of-range', message });
  return { readings: [readingOf(index, field, { kind: 'number', number })] };
}

function playerReading(
  index: VocabularyIndex,
  field: FieldDefinition,
  text: string,
  scope: Scope,
  literal = false,
): FormReading {
  if (!text) return incomplete(`${field.label}: which player?`);
  const found = findPlayers(index, field, text, scope.possession, literal);
  if (!found)
    return nothing({
      code: 'player-unknown',
      message: `No player on the rosters is called “${text}”.`,
      next: 'Type the jersey number, or the name in quotes to take it as a new player.',
    });
  const readings = found.players.map((player) => readingOf(index, field, player));
  if (!found.isNew) return { readings };
  const team = found.players[0]?.team ?? 'either team';
  return {
    readings,
    remark: {
      code: 'player-not-on-roster',
      message: `“${text}” is not on the roster of ${team}.`,
      next: 'Add the player to the roster, or check the number.',
    },
  };
}

/** A typed value of a field that is not one of terms, `text` being what stands after the colon. */
export function readTypedValue(
  index: VocabularyIndex,
  field: FieldDefinition,
  text: string,
  scope: Scope,
  literal: boolean,
): FormReading {
  switch (field.kind) {
    case 'player':
      return playerReading(index, field, text, scope, literal);
    case 'flag': {
      const flag = parseFlag(text);
      if (flag === null)
        return nothing({ code: 'not-a-flag', message: `${field.label} is yes or no, not “${text}”.` });
      return { readings: [readingOf(index, field, { kind: 'flag', flag })] };
    }
    case 'spot': {
      const spot = parseSpot(text);
      if (spot === null)
        return nothing({
          code: 'not-a-spot',
          message: `${field.label} is written -35 (own), +20 (theirs) or 50, not “${text}”.`,
        });
      return numberReading(index, field, spot);
    }
    case 'clock': {
      const clock = parseClock(text);
      if (clock === null)
        return nothing({
          code: 'not-a-clock',
          message: `${field.label} is written 7:42, from 0:00 to 15:00, not “${text}”.`,
        });
      return numberReading(index, field, clock);
    }
    default: {
      const number = parseNumber(text);
      if (number === null)
        return nothing({ code: 'not-a-number', message: `${field.label} is a number, not “${text}”.` });
      return numberReading(index, field, number);
    }
  }
}

/** One reading out of several fields at once, or the first trouble. */
function together(index: VocabularyIndex, parts: readonly [string, number][], insert: string): FormReading {
  const sets: FieldChange[] = [];
  for (const [key, number] of parts) {
    const field = index.fields.get(key);
    if (!field) return { readings: [] };
    const part = numberReading(index, field, number);
    if (part.trouble) return part;
    sets.push({ field: key, value: { kind: 'number', number } });
  }
  return { readings: [{ sets, insert }] };
}

function readDownAndDistance(index: VocabularyIndex, word: string, scope: Scope): FormReading | null {
  const match = /^(\d)&(\d{1,2}|g|goal)?$/i.exec(word);
  if (!match) return null;
  const [, down, distance] = match;
  if (distance === undefined) return incomplete('How many yards to go?');
  if (/^g/i.test(distance)) {
    if (scope.yardsToGoal === null)
      return incomplete('Goal to go: say where the ball is, and the distance is known.');
    return together(
      index,
      [
        ['down', Number(down)],
        ['distance', scope.yardsToGoal],
      ],
      word,
    );
  }
  return together(
    index,
    [
      ['down', Number(down)],
      ['distance', Number(distance)],
    ],
    word,
  );
}

function readFoulYards(index: VocabularyIndex, word: string): Reading | null {
  const match = /^([od])(\d{1,2})$/i.exec(word);
  if (!match) return null;
  const side = match[1]!.toLowerCase() === 'o' ? 'offense' : 'defense';
  const entry = index.terms.get(termId('penaltyOn', side));
  const yards = index.fields.get('penaltyYards');
  if (!entry || !yards) return null;
  const number = Number(match[2]);
  const sets: FieldChange[] = [
    { field: 'penaltyOn', value: entry.value },
    { field: 'penaltyYards', value: { kind: 'number', number } },
  ];
  return { sets, insert: `by:${side} ${sayNumber(index, yards, number)}`, needsFoul: true };
}

/** Fields that say which play it is; a letter is too little to change them by. */
const NAMES_THE_PLAY = new Set(['drive', 'playNumber']);

/** Fields that letters before a number can mean: a full name, or three letters and more of one. */
function fieldsOfLetters(index: VocabularyIndex, letters: string): readonly FieldDefinition[] {
  const full = index.fieldNames.get(letters.toLowerCase());
  if (!full && letters.length > 1 && letters.length < 3) return [];
  const fields = full ?? fieldsNamed(index, letters).filter(({ key }) => !NAMES_THE_PLAY.has(key));
  return fields.filter(({ kind, home }) => isSettable(home) && (kind === 'number' || kind === 'player'));
}

function readLettersAndNumber(index: VocabularyIndex, word: string, scope: Scope): FormReading | null {
  const match = /^(\p{L}+)([-+\u2212]?\d+(?:\.\d+)?)$/u.exec(word);
  if (!match) return null;
  const [, letters, digits] = match as unknown as [string, string, string];
  const readings: Reading[] = [];
  let trouble: Trouble | undefined;
  let remark: Trouble | undefined;
  for (const field of fieldsOfLetters(index, letters)) {
    if (field.kind === 'player' && !/^\d{1,3}$/.test(digits)) continue;
    const read = readTypedValue(index, field, digits, scope, false);
    readings.push(...read.readings);
    trouble ??= read.trouble;
    remark ??= read.remark;
  }
  const foul = readFoulYards(index, word);
  if (foul) readings.push(foul);
  if (readings.length === 0 && !trouble) return null;
  return {
    readings,
    ...(readings.length === 0 && trouble ? { trouble } : {}),
    ...(readings.length === 1 && remark ? { remark } : {}),
  };
}

function readThrow(index: VocabularyIndex, word: string, scope: Scope): FormReading | null {
  const match = /^(\d{0,3})@(.*)$/.exec(word);
  const passer = index.fields.get('passer');
  const target = index.fields.get('target');
  if (!match || !passer || !target) return null;
  const [, from = '', to = ''] = match;
  if (!from) return playerReading(index, target, to, scope);
  const thrown = playerReading(index, passer, from, scope);
  if (!to) return thrown;
  const caught = playerReading(index, target, to, scope);
  if (caught.readings.length === 0) return caught;
  const remark = thrown.remark ?? caught.remark;
  return {
    readings: thrown.readings.flatMap((a) =>
      caught.readings.map((b) => ({ sets: [...a.sets, ...b.sets], insert: `${a.insert} ${b.insert}` })),
    ),
    ...(remark ? { remark } : {}),
  };
}

/** Reads one word by its form; null where it has none. */
export function readForm(index: VocabularyIndex, word: string, scope: Scope): FormReading | null {
  const spot = index.fields.get('yardsToGoal');
  if (spot && /^([-+\u2212]\d+|50)$/.test(word)) return readTypedValue(index, spot, word, scope, false);
  const clock = index.fields.get('clock');
  if (clock && /^\d{0,2}:\d\d$/.test(word)) return readTypedValue(index, clock, word, scope, false);
  const score = /^s(\d{1,3})-(\d{1,3})$/i.exec(word);
  if (score)
    return together(
      index,
      [
        ['scoreFor', Number(score[1])],
        ['scoreAgainst', Number(score[2])],
      ],
      word,
    );
  return (
    readDownAndDistance(index, word, scope) ??
    readThrow(index, word, scope) ??
    readLettersAndNumber(index, word, scope)
  );
}
