import type { Baseline } from '../../../electron/service/pivot-views.ts';
import type { SavedQuestionView } from '../../../electron/service/views.ts';
import type { Question } from '../../../football/question/ast.ts';
import type { BuilderGroup } from '../../../football/question/querybuilder.ts';
import { cache, keys } from '../../service/cache.ts';
import { readSetting, writeSetting } from '../../state/settings.ts';
import { createStore } from '../../state/store.ts';
import {
  askQuestion,
  EVERY_PLAY_STATE,
  editText,
  editTree,
  type QuestionState,
} from './question/question-state.ts';
import type { QuestionWords } from './question/unknown-term.ts';
import type { TableSort } from './table/table-layout.ts';
import type { AskViewName } from './views.ts';

/** What the table shows of the answer. */
export interface TableChoice {
  readonly rows: readonly string[];
  readonly cols: readonly string[];
  /** group a term field by its families */
  readonly families: boolean;
  /** metrics without a column field, and with one: a table of both is wide enough with few */
  readonly metrics: readonly string[];
  readonly crossMetrics: readonly string[];
  readonly baseline: Baseline | null;
  readonly heat: boolean;
  /** ids of rows and column groups */
  readonly hidden: readonly string[];
  readonly pinned: readonly string[];
}

/** Plays that run beside the table. */
export interface Playing {
  readonly title: string;
  readonly playIds: readonly string[];
  readonly turn: number;
}

export interface AskState {
  readonly question: QuestionState;
  readonly view: AskViewName;
  readonly table: TableChoice;
  readonly sort: TableSort;
  readonly playing: Playing | null;
}

const USUAL_TABLE: TableChoice = {
  rows: ['concept'],
  cols: [],
  families: false,
  metrics: [
    'calls',
    'attempts',
    'completionPct',
    'yards',
    'yardsPerAttempt',
    'successRate',
    'explosiveRate',
    'sacks',
  ],
  crossMetrics: ['calls', 'successRate'],
  baseline: null,
  heat: false,
  hidden: [],
  pinned: [],
};

/** The room keeps its question while the coach looks into another room. */
export const askStore = createStore<AskState>({
  question: EVERY_PLAY_STATE,
  view: readSetting<AskViewName>('ask.view', 'table'),
  table: { ...USUAL_TABLE, ...readSetting<Partial<TableChoice>>('ask.pivot', {}) },
  sort: { by: 'plays', down: true },
  playing: null,
});

function setQuestion(question: QuestionState): void {
  askStore.set((now) => ({ ...now, question }));
  writeSetting('ask.where', question.where);
}

/** The words with the saved questions that the window has heard of. */
function withSaved(words: QuestionWords): QuestionWords {
  return { ...words, saved: cache.getQueryData<SavedQuestionView[]>(keys.questions) ?? [] };
}

export const askActions = {
  tree: (tree: BuilderGroup, words: QuestionWords) =>
    setQuestion(editTree(askStore.get().question, tree, withSaved(words))),
  text: (text: string, words: QuestionWords) =>
    setQuestion(editText(askStore.get().question, text, withSaved(words))),
  ask: (question: Question) => setQuestion(askQuestion(question)),
  clear: () => setQuestion(EVERY_PLAY_STATE),
  /** The question of the last time, once the words that it names are known. */
  recall: (words: QuestionWords) => {
    const where = readSetting('ask.where', '');
    if (where !== '' && askStore.get().question === EVERY_PLAY_STATE) askActions.text(where, words);
  },
  /** Which way the answer is looked at. */
  view: (view: AskViewName) => {
    askStore.set((now) => ({ ...now, view }));
    writeSetting('ask.view', view);
  },
  table: (change: Partial<TableChoice>) => {
    // hidden and pinned rows are those of the fields they were hidden under
    const fields = change.rows !== undefined || change.cols !== undefined || change.families !== undefined;
    const table = { ...askStore.get().table, ...(fields ? { hidden: [], pinned: [] } : {}), ...change };
    askStore.set((now) => ({ ...now, table, sort: sortFor(now.sort, change) }));
    writeSetting('ask.pivot', table);
  },
  sort: (sort: TableSort) => askStore.set((now) => ({ ...now, sort })),
  /** Back from the film to the values under the question. */
  values: () => askStore.set((now) => ({ ...now, playing: null })),
  play: (title: string, playIds: readonly string[]) =>
    askStore.set((now) => ({ ...now, playing: { title, playIds, turn: (now.playing?.turn ?? 0) + 1 } })),
};

/** Another row field has another order of its own; a column that is gone cannot sort. */
function sortFor(sort: TableSort, change: Partial<TableChoice>): TableSort {
  if (change.rows !== undefined) return { by: 'plays', down: true };
  return change.cols !== undefined ? { by: 'plays', down: true } : sort;
}
