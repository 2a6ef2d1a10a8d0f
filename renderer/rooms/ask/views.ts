import { type ComponentType, type LazyExoticComponent, lazy } from 'react';
import type { VocabularyView } from '../../../electron/service/views.ts';
import type { CommandName } from '../../commands/all-commands.ts';

/**
 * What every view of an answer is given. The question, and the way to play plays, are in `ask-store.ts`: a number of
 * a view calls `askActions.play(title, playIds)`, or `playMetric` where it is one metric of a cell.
 */
export interface AskViewProps {
  readonly vocabulary: VocabularyView;
}

export type AskViewName = 'table' | 'pictures' | 'tendencies' | 'reads' | 'reports';

interface AskView {
  readonly name: AskViewName;
  readonly label: string;
  readonly command: CommandName;
  readonly Page: LazyExoticComponent<ComponentType<AskViewProps>>;
}

type ViewModule = { readonly default: ComponentType<AskViewProps> };

/**
 * One folder a view, its page the default export of `view.tsx`; loaded when it is first opened. A page fills the place
 * that it is given and is the one thing that scrolls in it.
 */
const pages = import.meta.glob<ViewModule>('./*/view.tsx');

const NAMES: readonly (readonly [AskViewName, string, CommandName])[] = [
  ['table', 'Table', 'ask.viewTable'],
  ['pictures', 'Pictures', 'ask.viewPictures'],
  ['tendencies', 'Tendencies', 'ask.viewTendencies'],
  ['reads', 'Reads', 'ask.viewReads'],
  ['reports', 'Reports', 'ask.viewReports'],
];

export const ASK_VIEWS: readonly AskView[] = NAMES.flatMap(([name, label, command]) => {
  const load = pages[`./${name}/view.tsx`];
  return load ? [{ name, label, command, Page: lazy(load) }] : [];
});
