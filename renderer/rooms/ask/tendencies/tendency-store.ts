import { USUAL_CONTEXT } from '../../../../football/tendencies/contexts.ts';
import { readSetting, writeSetting } from '../../../state/settings.ts';
import { createStore } from '../../../state/store.ts';

/** Whose calls are looked at, and by what. */
export interface TendencyChoice {
  /** empty until the teams are known */
  readonly team: string;
  readonly side: 'offense' | 'defense';
  readonly call: string;
  readonly families: boolean;
  readonly contexts: readonly string[];
  readonly withinSituation: boolean;
}

const USUAL: TendencyChoice = {
  team: '',
  side: 'offense',
  call: 'playKind',
  families: true,
  contexts: USUAL_CONTEXT.slice(0, 3),
  withinSituation: true,
};

/** Kept while the coach looks into another room, and until the next start. */
export const tendencyStore = createStore<TendencyChoice>({
  ...USUAL,
  ...readSetting<Partial<TendencyChoice>>('ask.tendencies', {}),
});

export function chooseTendency(change: Partial<TendencyChoice>): void {
  const next = { ...tendencyStore.get(), ...change };
  tendencyStore.set(next);
  writeSetting('ask.tendencies', next);
}
