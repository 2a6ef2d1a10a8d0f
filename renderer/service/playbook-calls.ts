import type { PlayerView, ReadRuleView } from '../../electron/service/views.ts';
import type { SuccessVariant } from '../../football/metrics/settings.ts';
import { answer, api } from './api.ts';

export interface TermChange {
  readonly name?: string;
  /** name of the family, null for none */
  readonly parent?: string | null;
  readonly aliases?: readonly string[];
  readonly removed?: boolean;
}

export interface NewField {
  readonly key: string;
  readonly label: string;
  readonly kind: 'term' | 'number' | 'text' | 'player' | 'flag';
  readonly help: string;
}

export type NewPlayer = Omit<PlayerView, 'id'>;
export type NewReadRule = Omit<ReadRuleView, 'id'>;

const toSend = ({ aliases, ...change }: TermChange) => ({
  ...change,
  ...(aliases ? { aliases: [...aliases] } : {}),
});

/** Gestures on the playbook. */
export const playbookCalls = {
  changeSettings: (change: {
    readonly success?: SuccessVariant;
    readonly explosiveRunYards?: number;
    readonly explosivePassYards?: number;
  }) => answer(api.settings.$post({ json: change })),
  addField: (field: NewField) => answer(api.fields.$post({ json: field })),
  addTerm: (field: string, name: string, more: Omit<TermChange, 'name' | 'removed'>) =>
    answer(api.terms.$post({ json: { field, name, ...toSend(more) } })),
  changeTerm: (id: string, change: TermChange) =>
    answer(api.terms[':id'].$post({ param: { id }, json: toSend(change) })),
  addPlayer: (player: NewPlayer) => answer(api.players.$post({ json: player })),
  changePlayer: (id: string, change: Partial<NewPlayer> & { readonly removed?: boolean }) =>
    answer(api.players[':id'].$post({ param: { id }, json: change })),
  addReadRule: (rule: NewReadRule) => answer(api['read-rules'].$post({ json: rule })),
  changeReadRule: (id: string, change: Partial<NewReadRule> & { readonly removed?: boolean }) =>
    answer(api['read-rules'][':id'].$post({ param: { id }, json: change })),
};
