import type { AnswerView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { cache, keys } from '../../service/cache.ts';
import { askActions, askStore } from './ask-store.ts';

/** Binds what the room does by key and has no button of its own for. */
export function AskCommands() {
  useCommand('ask.table', () => {
    askActions.view('table');
    whenThere('[data-keys="ask-table"] [tabindex="0"]', (cell) => cell.focus());
  });
  useCommand('ask.values', () => {
    askActions.values();
    requestAnimationFrame(() => focusOn('#ask-values'));
  });
  useCommand('ask.now', () => {
    askActions.view('tendencies');
    focusWhenThere('#tendency-now');
  });
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

/** A view that is opened for the first time is there only after it has been loaded. */
function focusWhenThere(selector: string, tries = 40): void {
  const element = document.querySelector<HTMLElement>(selector);
  if (element) element.focus();
  else if (tries > 0) setTimeout(() => focusWhenThere(selector, tries - 1), 50);
}

function focusOn(selector: string, press = false): void {
  const element = document.querySelector<HTMLElement>(selector);
  element?.focus();
  if (press) element?.click();
}

/** Does something with an element as soon as its view has drawn it; a view that never does is left alone. */
function whenThere(selector: string, act: (element: HTMLElement) => void, tries = 40): void {
  const element = document.querySelector<HTMLElement>(selector);
  if (element) act(element);
  else if (tries > 0) setTimeout(() => whenThere(selector, act, tries - 1), 25);
}
