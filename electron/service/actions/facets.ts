import type { GroupValue } from '../../../db/columns/group.ts';
import { isFieldRule, normalise, type Question } from '../../../football/question/ast.ts';
import { isNumeric } from '../../../football/question/kinds.ts';
import { splitStep } from '../../../football/question/neighbour.ts';
import { printName, printQuestion, printValue } from '../../../football/question/print.ts';
import { type WhyEmpty, whyEmpty } from '../../../football/question/why-empty.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import type { Station } from '../station.ts';
import { readQuestion } from './answers.ts';

export interface FacetValueView {
  /** as the field keeps it; null is a play without the value */
  readonly value: GroupValue;
  readonly label: string;
  /** the condition that asks for it, in the text form */
  readonly where: string;
  readonly plays: number;
  /** steps below the family at the top */
  readonly depth: number;
}

export interface FacetView {
  readonly field: string;
  readonly label: string;
  /** whether the question asks about the field; its values are then counted without that, so that one can widen it */
  readonly asked: boolean;
  readonly values: readonly FacetValueView[];
  /** values beyond those listed */
  readonly more: number;
}

export interface FacetsView {
  readonly where: string;
  readonly count: number;
  readonly facets: readonly FacetView[];
}

/** More values than this are read by nobody; numbers are then put into ranges, words cut off after the most frequent. */
const LISTED = 40;
const RANGED_FROM = 12;
const STEPS = [1, 2, 5, 10, 20, 50, 60, 100, 300];

/**
 * Every field's values with their counts under a question; all fields when none are named.
 * @throws ProblemError why the question cannot be read
 */
export function facets(station: Station, where: string, fieldKeys?: readonly string[]): FacetsView {
  const store = station.columns();
  const question = readQuestion(station, where);
  const fields = fieldKeys?.length
    ? fieldKeys.flatMap((key) => station.vocabulary().fields.get(key) ?? [])
    : station.vocabulary().fields.all;
  const asked = fieldsAsked(question);
  const plain = fields.filter((field) => !asked.has(field.key));
  const counted = new Map(
    store
      .facets(
        question,
        plain.map((field) => field.key),
      )
      .map((each) => [each.field, each.values]),
  );
  for (const field of fields) {
    if (!asked.has(field.key)) continue;
    const [own] = store.facets(withoutField(question, field.key), [field.key]);
    counted.set(field.key, own!.values);
  }
  return {
    where: printQuestion(question),
    count: store.count(question),
    facets: fields.map((field) => {
      const listed = valuesOfField(station, field, counted.get(field.key) ?? []);
      return {
        field: field.key,
        label: field.label,
        asked: asked.has(field.key),
        values: listed.slice(0, LISTED),
        more: Math.max(0, listed.length - LISTED),
      };
    }),
  };
}

/** Why the question finds nothing. @throws ProblemError why it cannot be read */
export function whyNothing(station: Station, where: string): WhyEmpty {
  const store = station.columns();
  return whyEmpty(readQuestion(station, where), (question) => store.count(question));
}

/** Fields of which the question as a whole demands something. */
function fieldsAsked(question: Question): Set<string> {
  const plain = normalise(question);
  if (plain.kind === 'rule') return new Set([plain.field]);
  if (plain.not || plain.combinator !== 'and') return new Set();
  return new Set(plain.rules.flatMap((rule) => (rule.kind === 'rule' ? [rule.field] : [])));
}

function withoutField(question: Question, key: string): Question {
  const plain = normalise(question);
  const rules = plain.kind === 'rule' ? [plain] : plain.rules;
  return normalise({
    kind: 'group',
    combinator: 'and',
    rules: rules.filter((rule) => rule.kind === 'group' || rule.field !== key || isFieldRule(rule)),
  });
}

type Counted = readonly { readonly value: GroupValue; readonly plays: number }[];

function valuesOfField(station: Station, field: FieldDefinition, counts: Counted): FacetValueView[] {
  if (field.kind === 'term') return termTree(station, field, counts);
  const known = counts.filter(({ value }) => value !== null);
  const isRanged = isNumeric(field.kind) && known.length > RANGED_FROM;
  const listed = isRanged
    ? ranges(field, known)
    : known.map(({ value, plays }) => oneValue(field, value, plays));
  if (field.kind === 'text' || field.kind === 'player') listed.sort((a, b) => b.plays - a.plays);
  return [...listed.slice(0, LISTED - 1), ...missing(field, counts), ...listed.slice(LISTED - 1)];
}

function oneValue(field: FieldDefinition, value: GroupValue, plays: number, depth = 0): FacetValueView {
  const label = value === true ? 'yes' : value === false ? 'no' : String(value);
  const where = `${printName(field.key)} = ${value === null ? 'NULL' : printValue(value)}`;
  return { value, label, where, plays, depth };
}

function missing(field: FieldDefinition, counts: Counted): FacetValueView[] {
  const none = counts.find(({ value }) => value === null);
  if (!none) return [];
  const where = `${printName(field.key)} IS NULL`;
  return [{ value: null, label: 'not tagged', where, plays: none.plays, depth: 0 }];
}

/** Terms under their families; a family counts its members. */
function termTree(station: Station, field: FieldDefinition, counts: Counted): FacetValueView[] {
  const { families } = station.columns();
  const key = splitStep(field.key).key;
  const plays = new Map<string, number>();
  for (const { value, plays: count } of counts) {
    if (value === null) continue;
    for (const name of families.pathOf(key, String(value))) plays.set(name, (plays.get(name) ?? 0) + count);
  }
  const names = [...plays.keys()].map((name) => ({ name, path: families.pathOf(key, name) }));
  const rank = (path: readonly string[]) =>
    path.map((name) => `${String(1e9 - plays.get(name)!).padStart(10, '0')}${name}`).join('\n');
  names.sort((a, b) => (rank(a.path) < rank(b.path) ? -1 : 1));
  return [
    ...names.map(({ name, path }) => oneValue(field, name, plays.get(name)!, path.length - 1)),
    ...missing(field, counts),
  ];
}

function ranges(field: FieldDefinition, known: Counted): FacetValueView[] {
  const numbers = known.map(({ value }) => Number(value));
  const span = Math.max(...numbers) - Math.min(...numbers);
  const step = STEPS.find((each) => span / each <= 10) ?? 1_000;
  const plays = new Map<number, number>();
  for (const { value, plays: count } of known) {
    const at = Math.floor(Number(value) / step);
    plays.set(at, (plays.get(at) ?? 0) + count);
  }
  const isWhole = numbers.every(Number.isInteger);
  return [...plays.entries()]
    .sort(([a], [b]) => a - b)
    .map(([at, count]) => {
      const low = at * step;
      const high = low + step;
      const name = printName(field.key);
      const where = isWhole
        ? `${name} BETWEEN ${low} AND ${high - 1}`
        : `${name} >= ${low} AND ${name} < ${high}`;
      const label = isWhole ? (step === 1 ? `${low}` : `${low} to ${high - 1}`) : `${low} to under ${high}`;
      return { value: low, label, where, plays: count, depth: 0 };
    });
}
