import type { FocusPlace } from './dispatcher.ts';

const TEXT_INPUTS = new Set([
  'text',
  'search',
  'number',
  'url',
  'email',
  'password',
  'tel',
  'date',
  'time',
  'datetime-local',
  'month',
  'week',
]);

function takesText(element: Element): boolean {
  if (element instanceof HTMLInputElement) return TEXT_INPUTS.has(element.type);
  if (element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement) return true;
  return element instanceof HTMLElement && element.isContentEditable;
}

/** Reads the place of the focus for the dispatcher. */
export function focusPlace(element: Element | null): FocusPlace {
  if (!element) return { inText: false, marked: null, takesEnterAndSpace: false };
  const role = element.getAttribute('role');
  return {
    inText: takesText(element),
    marked: element.closest('[data-keys]')?.getAttribute('data-keys') ?? null,
    takesEnterAndSpace:
      element.matches('button, a[href], summary, input[type=checkbox], input[type=radio], [role=slider]') ||
      (role !== null && ['option', 'menuitem', 'tab', 'gridcell', 'switch'].includes(role)),
  };
}
