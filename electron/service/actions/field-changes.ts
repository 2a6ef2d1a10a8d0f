import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { tagId } from '../../../db/journal/entities.ts';
import { newTerm } from '../../../db/playbook/first-playbook.ts';
import { ProblemError } from '../../../football/result.ts';
import {
  type FieldValue,
  formatPlain,
  numberTrouble,
  type PlayerValue,
  plainValue,
  playerLabel,
} from '../../../football/values.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { termId, termKey } from '../../../football/vocabulary/terms.ts';
import type { Station } from '../station.ts';
import type { FilmTimeView } from '../views.ts';

/** What stands beside a tag: when and where on the film it was given. */
export interface TagContext {
  readonly film?: FilmTimeView | null;
  readonly at: string;
}

/**
 * The journal's changes that give a play a field's value. New terms and players that it names are made with it.
 * @param made terms and players made earlier in the same gesture; added to
 * @throws ProblemError `field-unknown`, `field-derived`, `value-not-fit`, `term-unknown`, `player-unknown`
 */
export function fieldChanges(
  station: Station,
  playId: string,
  fieldKey: string,
  value: FieldValue,
  context: TagContext,
  made: Map<string, string> = new Map(),
): Change[] {
  const field = fieldOrProblem(station, fieldKey);
  const extra: Change[] = [];
  if (field.home === 'play') {
    const column = columnValue(station, field, value, made, extra);
    return [...extra, { entity: 'play', id: playId, field: field.key, value: column }];
  }
  const substance = tagSubstance(station, field, value, made, extra);
  return [
    ...extra,
    {
      entity: 'tag',
      id: tagId(playId, field.key),
      field: 'value',
      value: substance && [
        ...substance,
        context.film?.filmId ?? null,
        context.film?.frame ?? null,
        station.person,
        context.at,
      ],
    },
  ];
}

/** @throws ProblemError `field-unknown`, `field-derived` */
export function fieldOrProblem(station: Station, key: string): FieldDefinition {
  const { fields } = station.vocabulary();
  const field = fields.get(key);
  if (!field) {
    const near = fields.nearest(key);
    throw new ProblemError({
      code: 'field-unknown',
      message: `There is no field ${key}.`,
      next: near ? `Did you mean ${near}?` : '`tapebook fields` lists all fields.',
    });
  }
  if (field.home === 'game' || field.home === 'derived') {
    throw new ProblemError({
      code: 'field-derived',
      message: `${field.label} is not tagged on a play: ${field.home === 'game' ? 'it belongs to the game' : 'it is worked out from the rest'}.`,
      next: 'Change what it comes from.',
    });
  }
  return field;
}

function columnValue(
  station: Station,
  field: FieldDefinition,
  value: FieldValue,
  made: Map<string, string>,
  extra: Change[],
): string | number | null {
  if (value.kind === 'clear') return null;
  if (field.kind === 'term') {
    if (value.kind !== 'term' && value.kind !== 'text') throw notFit(field, value);
    const name = value.kind === 'term' ? value.name : value.text;
    if (field.key === 'possession') return name;
    const term = station.vocabulary().findTerm(field.key, name);
    if (term) return term.name;
    makeTerm(station, field, name, made, extra);
    return name;
  }
  checkKind(field, value);
  const plain = plainValue(value);
  return typeof plain === 'boolean' ? Number(plain) : plain;
}

function tagSubstance(
  station: Station,
  field: FieldDefinition,
  value: FieldValue,
  made: Map<string, string>,
  extra: Change[],
): (string | number | null)[] | null {
  switch (value.kind) {
    case 'clear':
      return null;
    case 'term': {
      if (field.kind !== 'term') throw notFit(field, value);
      const term = station.vocabulary().findTerm(field.key, value.name);
      return [term?.id ?? makeTerm(station, field, value.name, made, extra), null, null, null];
    }
    case 'player': {
      if (field.kind !== 'player') throw notFit(field, value);
      return [null, null, null, playerId(station, value, made, extra)];
    }
    default: {
      checkKind(field, value);
      const plain = plainValue(value);
      if (typeof plain === 'string') return [null, null, plain, null];
      return [null, Number(plain), null, null];
    }
  }
}

export interface NewTerm {
  readonly field: string;
  readonly name: string;
}

/** The changes that add terms to the playbook; those that are there are left out. @throws ProblemError as `termFieldOrProblem` */
export function newTermChanges(
  station: Station,
  terms: readonly NewTerm[],
  made: Map<string, string>,
): Change[] {
  const extra: Change[] = [];
  for (const { field, name } of terms) {
    const definition = termFieldOrProblem(station, field, name);
    if (!station.vocabulary().findTerm(field, name)) makeTerm(station, definition, name.trim(), made, extra);
  }
  return extra;
}

/** A field that takes a new term of that name. @throws ProblemError `field-unknown`, `field-closed`, `term-empty` */
export function termFieldOrProblem(station: Station, fieldKey: string, name: string): FieldDefinition {
  const field = fieldOrProblem(station, fieldKey);
  if (field.kind !== 'term' || field.closed) {
    throw new ProblemError({
      code: 'field-closed',
      message: `${field.label} takes no new terms.`,
      kept: 'Nothing was changed.',
      next: 'Choose one of its terms.',
    });
  }
  if (name.trim() === '') throw termNameless();
  return field;
}

export function termNameless(): ProblemError {
  return new ProblemError({ code: 'term-empty', message: 'A term needs a name.', next: 'Type one.' });
}

/** Makes a term, once a gesture, and gives its id. @throws ProblemError `term-unknown` where the field takes none */
function makeTerm(
  station: Station,
  field: FieldDefinition,
  name: string,
  made: Map<string, string>,
  extra: Change[],
): string {
  if (field.closed) throw unknownTerm(station, field, name);
  const key = `term ${termId(field.key, name)}`;
  const before = made.get(key);
  if (before) return before;
  const id = newTermId(station, field.key, name);
  made.set(key, id);
  extra.push(...newTerm(id, field.key, name, null, []));
  return id;
}

/** The id for a new term. One that was renamed keeps its id, so whoever takes its old name needs another. */
export function newTermId(station: Station, fieldKey: string, name: string): string {
  const id = termId(fieldKey, name);
  const there = station.library.db.prepare('SELECT name FROM terms WHERE id = ?').pluck().get(id);
  return there === undefined || termKey(String(there)) === termKey(name) ? id : `${id}:${uuidv7()}`;
}

function checkKind(field: FieldDefinition, value: FieldValue): void {
  const wanted = field.kind === 'clock' || field.kind === 'spot' ? 'number' : field.kind;
  if (value.kind !== wanted) throw notFit(field, value);
  if (value.kind !== 'number') return;
  const trouble = numberTrouble(field, value.number);
  if (trouble) {
    throw new ProblemError({
      code: 'value-not-fit',
      message: trouble,
      kept: 'Nothing was changed.',
      next: 'Type it again.',
    });
  }
}

function notFit(field: FieldDefinition, value: FieldValue): ProblemError {
  return new ProblemError({
    code: 'value-not-fit',
    message: `${field.label} takes ${WANTS[field.kind]}, not ${formatPlain(field, plainValue(value))}.`,
    kept: 'Nothing was changed.',
    next: 'Type it again.',
  });
}

const WANTS: Readonly<Record<FieldDefinition['kind'], string>> = {
  term: 'a term of the playbook',
  number: 'a number',
  clock: 'a time such as 7:42',
  spot: 'a spot such as -35 or +20',
  text: 'text',
  player: 'a player',
  flag: 'yes or no',
};

function unknownTerm(station: Station, field: FieldDefinition, name: string): ProblemError {
  const known = station.vocabulary().terms.filter((t) => t.field === field.key);
  return new ProblemError({
    code: 'term-unknown',
    message: `${field.label} has no term ${name}.`,
    kept: 'Nothing was changed.',
    next: `It takes ${known.map((t) => t.name).join(', ')}.`,
  });
}

function playerId(station: Station, value: PlayerValue, made: Map<string, string>, extra: Change[]): string {
  if (value.playerId) {
    if (station.vocabulary().players.some((p) => p.id === value.playerId)) return value.playerId;
    throw new ProblemError({
      code: 'player-unknown',
      message: `${playerLabel(value) || 'This player'} is not on the roster any more.`,
      kept: 'Nothing was changed.',
      next: 'Choose another player, or type the number.',
    });
  }
  const wantedName = value.name?.trim().toLowerCase() ?? '';
  const known = station
    .vocabulary()
    .players.find(
      (p) =>
        (value.team === null || p.team === value.team) &&
        (value.number === null || p.number === value.number) &&
        (wantedName === '' ? value.number !== null : (p.name ?? '').trim().toLowerCase() === wantedName),
    );
  if (known) return known.id;
  const key = `player ${value.team ?? ''} ${value.number ?? ''} ${wantedName}`;
  const before = made.get(key);
  if (before) return before;
  const id = uuidv7();
  made.set(key, id);
  const at = { entity: 'player', id };
  extra.push({ ...at, field: 'removed', value: 0 });
  if (value.number !== null) extra.push({ ...at, field: 'number', value: value.number });
  if (value.name) extra.push({ ...at, field: 'name', value: value.name.trim() });
  if (value.team) extra.push({ ...at, field: 'team', value: value.team });
  return id;
}
