/** Why a question finds nothing: which condition, or which two together, and what would be found without them. */

import { EVERY_PLAY, normalise, type Question } from './ast.ts';
import { printQuestion } from './print.ts';

export interface EmptyReason {
  /** conditions that no play meets, alone or two together, as text */
  readonly conditions: readonly string[];
}

export interface WiderQuestion {
  /** what is taken out, as text */
  readonly without: readonly string[];
  readonly where: string;
  readonly plays: number;
}

export interface WhyEmpty {
  readonly reasons: readonly EmptyReason[];
  /** the most plays first */
  readonly wider: readonly WiderQuestion[];
}

/** Pairs are tried of at most so many conditions that must all hold. */
const PAIRED = 24;

/** @param count how many plays a question finds */
export function whyEmpty(question: Question, count: (question: Question) => number): WhyEmpty {
  const plain = normalise(question);
  const parts = conjuncts(plain);
  const barren = parts.filter((part) => count(part) === 0);
  const reasons: EmptyReason[] = barren.map((part) => ({ conditions: [printQuestion(part)] }));
  const fruitful = parts.filter((part) => !barren.includes(part)).slice(0, PAIRED);
  for (const [at, a] of fruitful.entries()) {
    for (const b of fruitful.slice(at + 1)) {
      if (count(all([a, b])) > 0) continue;
      reasons.push({ conditions: [printQuestion(a), printQuestion(b)] });
    }
  }
  const wider = placesOf(plain).flatMap((place) => widerBy([place], plain, count));
  if (wider.length === 0) wider.push(...pairsOut(parts, count));
  if (wider.length === 0) wider.push(...fewestOut(parts, count));
  return { reasons, wider: wider.sort((a, b) => b.plays - a.plays) };
}

/** What must all hold, whatever the brackets. */
function conjuncts(question: Question): Question[] {
  if (question.kind === 'group' && question.combinator === 'and' && !question.not)
    return question.rules.flatMap(conjuncts);
  return [question];
}

function all(rules: readonly Question[]): Question {
  return normalise({ kind: 'group', combinator: 'and', rules });
}

type Place = readonly number[];

/** Every condition and every group inside the question, by its way through the tree. */
function placesOf(question: Question, at: Place = []): Place[] {
  const inside =
    question.kind === 'group' ? question.rules.flatMap((rule, i) => placesOf(rule, [...at, i])) : [];
  return at.length === 0 ? (question.kind === 'rule' ? [[]] : inside) : [at, ...inside];
}

function nodeAt(question: Question, place: Place): Question {
  const [first, ...rest] = place;
  if (first === undefined || question.kind === 'rule') return question;
  return nodeAt(question.rules[first]!, rest);
}

/** A group that loses its last condition goes with it. */
function without(question: Question, place: Place): Question | null {
  const [first, ...rest] = place;
  if (first === undefined || question.kind === 'rule') return null;
  const rules = question.rules.flatMap((rule, i) => {
    const kept = i === first ? without(rule, rest) : rule;
    return kept ? [kept] : [];
  });
  return rules.length === 0 ? null : { ...question, rules };
}

function widerBy(
  places: readonly Place[],
  question: Question,
  count: (q: Question) => number,
): WiderQuestion[] {
  const [place] = places;
  const left = normalise(without(question, place!) ?? EVERY_PLAY);
  const plays = count(left);
  if (plays === 0) return [];
  return [{ without: [printQuestion(nodeAt(question, place!))], where: printQuestion(left), plays }];
}

function pairsOut(parts: readonly Question[], count: (q: Question) => number): WiderQuestion[] {
  const tried = parts.slice(0, PAIRED);
  return tried.flatMap((a, at) =>
    tried.slice(at + 1).flatMap((b) => {
      const left = all(parts.filter((part) => part !== a && part !== b));
      const plays = count(left);
      const words = [printQuestion(a), printQuestion(b)];
      return plays > 0 ? [{ without: words, where: printQuestion(left), plays }] : [];
    }),
  );
}

/** Keeps each condition with which plays are left, from left to right. */
function fewestOut(parts: readonly Question[], count: (q: Question) => number): WiderQuestion[] {
  const kept: Question[] = [];
  const out: string[] = [];
  for (const part of parts) {
    if (count(all([...kept, part])) > 0) kept.push(part);
    else out.push(printQuestion(part));
  }
  const left = all(kept);
  const plays = count(left);
  return plays > 0 && out.length > 0 ? [{ without: out, where: printQuestion(left), plays }] : [];
}
