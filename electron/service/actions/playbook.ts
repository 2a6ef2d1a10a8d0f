import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { newTerm } from '../../../db/playbook/first-playbook.ts';
import { countTermUses, listReadRules } from '../../../db/repositories/vocabulary.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { PlayerView, ReadRuleView, TermView, VocabularyView } from '../views.ts';
import { newTermId, termFieldOrProblem, termNameless } from './field-changes.ts';

export function vocabularyView(station: Station): VocabularyView {
  const v = station.vocabulary();
  const uses = countTermUses(station.library);
  return {
    fields: v.fields.all,
    terms: v.terms.map((t) => ({ ...t, uses: uses.get(t.id) ?? 0 })),
    players: v.players,
    readRules: listReadRules(station.library).map((r) => ({
      id: r.id,
      concept: r.concept ?? '',
      keyDefender: r.keyDefender,
      whenKey: r.whenKey,
      goTo: r.goTo,
      note: r.note,
    })),
    teams: { ours: v.ours, opponents: v.opponents },
  };
}

export interface TermChange {
  readonly name?: string;
  /** name of the family, null for none */
  readonly parent?: string | null;
  readonly aliases?: readonly string[];
  readonly removed?: boolean;
}

/** @throws ProblemError `term-exists`, `term-empty`, `field-unknown`, `field-closed`, `family-unknown` */
export function addTerm(
  station: Station,
  field: string,
  name: string,
  more: Omit<TermChange, 'name' | 'removed'> = {},
): TermView {
  const definition = termFieldOrProblem(station, field, name);
  const trimmed = name.trim();
  const known = station.vocabulary().findTerm(field, trimmed);
  if (known) {
    throw new ProblemError({
      code: 'term-exists',
      message: `${definition.label} already has ${known.name}.`,
      kept: 'Nothing was changed.',
      next: 'Use it, or choose another name.',
    });
  }
  const id = newTermId(station, field, trimmed);
  station.library.journal.commit({ label: `add ${definition.label.toLowerCase()} ${trimmed}` }, [
    ...newTerm(id, field, trimmed, parentIdOf(station, field, id, more.parent), more.aliases ?? []),
  ]);
  return termView(station, id);
}

/** @throws ProblemError `term-unknown`, `term-exists`, `family-loop` */
export function changeTerm(station: Station, id: string, change: TermChange): TermView {
  const term = station.vocabulary().terms.find((t) => t.id === id);
  if (!term) throw unknown('term');
  const at = { entity: 'term', id };
  const changes: Change[] = [];
  if (change.name !== undefined) {
    if (change.name.trim() === '') throw termNameless();
    const clash = station.vocabulary().findTerm(term.field, change.name);
    if (clash && clash.id !== id) {
      throw new ProblemError({
        code: 'term-exists',
        message: `There is already a term ${clash.name}.`,
        kept: 'Nothing was changed.',
        next: 'Choose another name.',
      });
    }
    changes.push({ ...at, field: 'name', value: change.name.trim() });
  }
  if (change.parent !== undefined)
    changes.push({ ...at, field: 'parentId', value: parentIdOf(station, term.field, id, change.parent) });
  if (change.aliases !== undefined)
    changes.push({ ...at, field: 'aliases', value: JSON.stringify(change.aliases) });
  if (change.removed) {
    const uses = countTermUses(station.library).get(id) ?? 0;
    if (uses > 0) {
      throw new ProblemError({
        code: 'term-in-use',
        message: `${term.name} stands on ${uses} ${uses === 1 ? 'play' : 'plays'}.`,
        kept: 'It was not removed.',
        next: 'Give those plays another term first.',
      });
    }
    changes.push({ ...at, field: 'removed', value: 1 });
  }
  station.library.journal.commit({ label: `change ${term.name}` }, changes);
  return change.removed ? { ...term, uses: 0 } : termView(station, id);
}

function parentIdOf(
  station: Station,
  field: string,
  id: string,
  parent: string | null | undefined,
): string | null {
  if (parent === null || parent === undefined || parent === '') return null;
  const family = station.vocabulary().findTerm(field, parent);
  if (!family) throw unknown('family');
  const byId = new Map(station.vocabulary().terms.map((t) => [t.id, t]));
  for (let up: typeof family | undefined = family; up; up = up.parentId ? byId.get(up.parentId) : undefined) {
    if (up.id === id) {
      throw new ProblemError({
        code: 'family-loop',
        message: `${family.name} already belongs to this term.`,
        kept: 'Nothing was changed.',
        next: 'Choose another family.',
      });
    }
  }
  return family.id;
}

export function termView(station: Station, id: string): TermView {
  const term = station.vocabulary().terms.find((t) => t.id === id);
  if (!term) throw unknown('term');
  return { ...term, uses: countTermUses(station.library).get(id) ?? 0 };
}

export type PlayerChange = Partial<Pick<PlayerView, 'number' | 'name' | 'position' | 'team'>> & {
  readonly removed?: boolean;
};

/** Makes a player (no id) or changes one. @throws ProblemError `player-unknown` */
export function setPlayer(station: Station, id: string | null, change: PlayerChange): PlayerView {
  if (id !== null && !station.vocabulary().players.some((p) => p.id === id)) throw unknown('player');
  const playerId = id ?? uuidv7();
  const at = { entity: 'player', id: playerId };
  const changes: Change[] = id === null ? [{ ...at, field: 'removed', value: 0 }] : [];
  for (const field of ['number', 'name', 'position', 'team'] as const) {
    const value = change[field];
    if (value !== undefined) changes.push({ ...at, field, value });
  }
  if (change.removed) changes.push({ ...at, field: 'removed', value: 1 });
  station.library.journal.commit({ label: `${id === null ? 'add' : 'change'} player` }, changes);
  const player = station.vocabulary().players.find((p) => p.id === playerId);
  return player ?? { id: playerId, number: null, name: null, position: null, team: null };
}

export type ReadRuleChange = Partial<Omit<ReadRuleView, 'id'>> & { readonly removed?: boolean };

/** Makes a read rule (no id) or changes one. @throws ProblemError `rule-unknown` */
export function setReadRule(station: Station, id: string | null, change: ReadRuleChange): { id: string } {
  if (id !== null && !listReadRules(station.library).some((r) => r.id === id)) throw unknown('rule');
  const ruleId = id ?? uuidv7();
  const at = { entity: 'readRule', id: ruleId };
  const changes: Change[] =
    id === null
      ? [
          { ...at, field: 'removed', value: 0 },
          { ...at, field: 'rank', value: ruleId },
        ]
      : [];
  for (const field of ['concept', 'keyDefender', 'whenKey', 'goTo', 'note'] as const) {
    const value = change[field];
    if (value !== undefined) changes.push({ ...at, field, value });
  }
  if (change.removed) changes.push({ ...at, field: 'removed', value: 1 });
  station.library.journal.commit({ label: `${id === null ? 'add' : 'change'} read rule` }, changes);
  return { id: ruleId };
}

export interface NewField {
  readonly key: string;
  readonly label: string;
  readonly kind: 'term' | 'number' | 'text' | 'player' | 'flag';
  readonly help?: string;
  readonly unit?: string;
}

/** A field of the staff's own. @throws ProblemError `field-exists`, `field-name` */
export function addField(station: Station, field: NewField): void {
  if (!/^[a-z][A-Za-z0-9]{0,39}$/.test(field.key)) {
    throw new ProblemError({
      code: 'field-name',
      message: `${field.key} is not a field name.`,
      next: 'Use letters and digits, a small letter first, as in blockType.',
    });
  }
  if (station.vocabulary().fields.find(field.key)) {
    throw new ProblemError({
      code: 'field-exists',
      message: `There is already a field ${field.key}.`,
      next: 'Choose another name.',
    });
  }
  const at = { entity: 'field', id: field.key };
  station.library.journal.commit({ label: `add field ${field.label}` }, [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'label', value: field.label },
    { ...at, field: 'kind', value: field.kind },
    { ...at, field: 'help', value: field.help ?? '' },
    { ...at, field: 'unit', value: field.unit ?? null },
  ]);
}

function unknown(what: string): ProblemError {
  return new ProblemError({
    code: `${what}-unknown`,
    message: `There is no such ${what}.`,
    kept: 'Nothing was changed.',
    next: 'Look at the playbook.',
  });
}
