import { describe, expect, it } from 'vitest';
import { moveCursor } from '../../../../../renderer/rooms/ask/table/cell-cursor.ts';

const PLAIN = { rows: 4, columns: 6, groupWidth: 0 };
const GROUPED = { rows: 4, columns: 6, groupWidth: 2 };

describe('keys in the efficiency table', () => {
  it.each([
    ['down a row', { row: 0, column: 0 }, 'ArrowDown', false, PLAIN, { row: 1, column: 0 }],
    ['no further than the totals', { row: 3, column: 0 }, 'ArrowDown', false, PLAIN, { row: 3, column: 0 }],
    ['left to the row’s name', { row: 1, column: 0 }, 'ArrowLeft', false, PLAIN, { row: 1, column: -1 }],
    ['up to the metrics', { row: 0, column: 2 }, 'ArrowUp', false, PLAIN, { row: -1, column: 2 }],
    [
      'no heads above them without a column field',
      { row: -1, column: 2 },
      'ArrowUp',
      false,
      PLAIN,
      { row: -1, column: 2 },
    ],
    [
      'up to the head of the group',
      { row: -1, column: 3 },
      'ArrowUp',
      false,
      GROUPED,
      { row: -2, column: 2 },
    ],
    ['from group to group', { row: -2, column: 2 }, 'ArrowRight', false, GROUPED, { row: -2, column: 4 }],
    [
      'no further than the last group',
      { row: -2, column: 4 },
      'ArrowRight',
      false,
      GROUPED,
      { row: -2, column: 4 },
    ],
    ['to the end of the row', { row: 2, column: 1 }, 'End', false, PLAIN, { row: 2, column: 5 }],
    ['to the last cell of all', { row: 0, column: 1 }, 'End', true, PLAIN, { row: 3, column: 5 }],
    ['to the first head of all', { row: 3, column: 5 }, 'Home', true, GROUPED, { row: -2, column: 0 }],
  ])('go %s', (_, at, key, ctrlKey, size, expected) => {
    expect(moveCursor(at, { key, ctrlKey }, size)).toEqual(expected);
  });

  it('leave other keys to the room', () => {
    expect(moveCursor({ row: 0, column: 0 }, { key: 'x', ctrlKey: false }, PLAIN)).toBeNull();
  });
});
