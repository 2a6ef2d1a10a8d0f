import type { AnswerView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { cache, keys } from '../../service/cache.ts';
import { askActions, askStore } from './ask-store.ts';

/** Binds what the room does by key and has no button of its own for. */
export function AskCommands() {
  useCommand('ask.table', () => focusOn('[data-keys="ask-table"] [tabindex="0"]'));
  useCommand('ask.text', () => focusOn('#ask-question-text'));
  useCommand('ask.condition', () => focusOn('[data-ask-builder] button[title="Add a condition"]', true));
  useCommand('ask.everyPlay', askActions.clear);
  useCommand('ask.playAll', () => {
    const { where } = askStore.get().question;
    const [answer] = cache
      .getQueriesData<AnswerView>({ queryKey: keys.answer(where, []) })
      .flatMap(([, data]) => (data ? [data] : []));
    if (answer) askActions.play('Every play of the question', answer.playIds);
  });
  return null;
}

function focusOn(selector: string, press = false): void {
  const element = document.querySelector<HTMLElement>(selector);
  element?.focus();
  if (press) element?.click();
}
