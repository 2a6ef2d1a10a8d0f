import type { PlayerView, ReadRuleView, TermView } from '../../electron/service/views.ts';
import { ask } from './http.ts';

const at = encodeURIComponent;

export interface NewTerm {
  readonly field: string;
  readonly name: string;
  /** name of the family, null for none */
  readonly parent?: string | null;
  readonly aliases?: readonly string[];
}

export type TermChange = Partial<Omit<NewTerm, 'field'>> & { readonly removed?: boolean };
export type NewPlayer = Omit<PlayerView, 'id'>;
export type NewReadRule = Omit<ReadRuleView, 'id'>;

/** Gestures on the playbook. */
export const playbookCalls = {
  addTerm: (term: NewTerm) => ask<TermView>('/api/terms', term),
  changeTerm: (termId: string, change: TermChange) => ask<TermView>(`/api/terms/${at(termId)}`, change),
  addPlayer: (player: NewPlayer) => ask<PlayerView>('/api/players', player),
  changePlayer: (playerId: string, change: Partial<NewPlayer> & { readonly removed?: boolean }) =>
    ask<PlayerView>(`/api/players/${at(playerId)}`, change),
  addReadRule: (rule: NewReadRule) => ask<ReadRuleView>('/api/read-rules', rule),
  changeReadRule: (ruleId: string, change: Partial<NewReadRule> & { readonly removed?: boolean }) =>
    ask<ReadRuleView>(`/api/read-rules/${at(ruleId)}`, change),
};
