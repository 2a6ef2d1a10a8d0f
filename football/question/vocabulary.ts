/**
 * What the words of a question stand for in a staff's playbook: which terms a family takes in, and which players
 * a number or a name means. The columns and the SQL both ask here, so that they cannot understand a word differently.
 */

import type { FieldDefinition } from '../vocabulary/fields.ts';
import { DERIVED_TERMS } from '../vocabulary/situation-limits.ts';
import { termKey } from '../vocabulary/terms.ts';
import { foldCase, likeTest } from './like.ts';
import { splitStep } from './neighbour.ts';

/** A term as a playbook keeps it: by ids in a library, by names among the built-in terms. */
export interface QuestionTerm {
  readonly field: string;
  readonly name: string;
  readonly id?: string;
  readonly parentId?: string | null;
  readonly parent?: string;
  readonly aliases?: readonly string[];
}

interface Node {
  readonly name: string;
  parent: Node | null;
  readonly children: Node[];
}

export class Families {
  /** per field: each term by the key of its name, and by that of its other spellings where no name claims it */
  private readonly byField = new Map<string, Map<string, Node>>();

  constructor(staffTerms: readonly QuestionTerm[]) {
    const terms: readonly QuestionTerm[] = [...staffTerms, ...DERIVED_TERMS];
    const nodes = new Map<QuestionTerm, Node>();
    const byId = new Map<string, Node>();
    for (const term of terms) {
      const node: Node = { name: term.name, parent: null, children: [] };
      nodes.set(term, node);
      if (term.id !== undefined) byId.set(term.id, node);
      this.ofField(term.field).set(termKey(term.name), node);
    }
    for (const term of terms) {
      const node = nodes.get(term)!;
      const known = this.ofField(term.field);
      const byName = term.parent === undefined ? undefined : known.get(termKey(term.parent));
      const parent = term.parentId ? byId.get(term.parentId) : byName;
      if (parent && parent !== node && !isAbove(node, parent)) {
        node.parent = parent;
        parent.children.push(node);
      }
    }
    for (const term of terms) {
      const known = this.ofField(term.field);
      for (const alias of term.aliases ?? []) {
        if (!known.has(termKey(alias))) known.set(termKey(alias), nodes.get(term)!);
      }
    }
  }

  private ofField(field: string): Map<string, Node> {
    let known = this.byField.get(field);
    if (!known) {
      known = new Map();
      this.byField.set(field, known);
    }
    return known;
  }

  private node(field: string, name: string): Node | undefined {
    return this.byField.get(field)?.get(termKey(name));
  }

  knows(field: string, name: string): boolean {
    return this.node(field, name) !== undefined;
  }

  /** The term's own name, from any of its spellings. */
  nameOf(field: string, word: string): string | undefined {
    return this.node(field, word)?.name;
  }

  /** The names that answer to a word: the term and all below it. A word that is no term answers to itself. */
  membersOf(field: string, word: string): string[] {
    const node = this.node(field, word);
    if (!node) return [word];
    const names: string[] = [];
    const collect = (n: Node) => {
      names.push(n.name);
      for (const child of n.children) collect(child);
    };
    collect(node);
    return names;
  }

  /** The families of a term from the top down, itself last; a word that is no term stands alone. */
  pathOf(field: string, name: string): string[] {
    const path: string[] = [];
    for (let at: Node | null = this.node(field, name) ?? null; at; at = at.parent) path.unshift(at.name);
    return path.length > 0 ? path : [name];
  }

  /** The topmost family of a term; a term without one, or a word that is no term, is its own. */
  rootOf(field: string, name: string): string {
    let node = this.node(field, name);
    if (!node) return name;
    while (node.parent) node = node.parent;
    return node.name;
  }
}

/** Whether `upper` is above `node` already, so that a loop of parents in a merged playbook is cut, not followed. */
function isAbove(upper: Node, node: Node): boolean {
  for (let at: Node | null = node; at; at = at.parent) if (at === upper) return true;
  return false;
}

/** The names that a condition on a term accepts, without regard to A to Z in upper or lower case. */
export function acceptedTerms(
  families: Families,
  field: FieldDefinition,
  words: readonly string[],
  exact: boolean,
): Set<string> {
  const { key } = splitStep(field.key);
  const names = words.flatMap((word) =>
    exact ? [families.nameOf(key, word) ?? word] : families.membersOf(key, word),
  );
  return new Set(names.map(foldCase));
}

/** What a word may say of a player: the whole label, the number (`84`, `#84`) or the name. */
export interface AskedPlayer {
  readonly label: string;
  /** `#84`, where the word is a number */
  readonly number: string | null;
}

export function askedPlayer(word: string): AskedPlayer {
  const text = foldCase(word.trim());
  const number = /^#?(\d{1,3})$/.exec(text);
  return { label: text, number: number ? `#${Number(number[1])}` : null };
}

/** The number and the name in a label like `#84 Ira Novak`; a label without a number is all name. */
export function splitPlayerLabel(label: string): { number: string | null; name: string } {
  if (!/^#\d/.test(label)) return { number: null, name: label };
  const space = label.indexOf(' ');
  if (space < 0) return { number: label, name: '' };
  return { number: label.slice(0, space), name: label.slice(space + 1) };
}

export function isAskedPlayer(label: string, asked: AskedPlayer): boolean {
  const folded = foldCase(label);
  const { number, name } = splitPlayerLabel(folded);
  if (folded === asked.label || (name !== '' && name === asked.label)) return true;
  return asked.number !== null && number === asked.number;
}

/** Whether the label or the name alone follows a pattern of LIKE. */
export function playerLikeTest(pattern: string): (label: string) => boolean {
  const test = likeTest(pattern);
  return (label) => {
    const { name } = splitPlayerLabel(label);
    return test(label) || (name !== '' && test(name));
  };
}
