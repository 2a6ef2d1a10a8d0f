import { notifications } from '@mantine/notifications';
import { createElement } from 'react';
import type { Problem } from '../../football/result.ts';

const CLOSE = { 'aria-label': 'Close this message' };

/** Says what happened, what was kept and what to do next. */
export function tellProblem(problem: Problem): void {
  notifications.show({
    id: `${problem.code}:${problem.message}`,
    color: 'red',
    title: problem.message,
    message: createElement(
      'div',
      null,
      problem.kept && createElement('div', null, `Kept: ${problem.kept}`),
      problem.next && createElement('div', null, `Next: ${problem.next}`),
    ),
    autoClose: 12_000,
    closeButtonProps: CLOSE,
    withBorder: true,
  });
}

/** A quiet word that something was done which cannot be seen where the eyes are. */
export function tellDone(message: string): void {
  notifications.show({ message, color: 'teal', autoClose: 3_000, withBorder: true, closeButtonProps: CLOSE });
}
