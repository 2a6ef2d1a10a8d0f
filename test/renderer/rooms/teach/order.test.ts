import { describe, expect, it } from 'vitest';
import type { ClipView } from '../../../../electron/service/views.ts';
import { afterDrop, afterFor, moved } from '../../../../renderer/rooms/teach/order.ts';
import { shownFrames, trimAt, trimInWords } from '../../../../renderer/rooms/teach/trims.ts';

const CLIPS = ['a', 'b', 'c', 'd'];
const id = (item: string) => item;

describe('the order of a cut-up', () => {
  it.each([
    ['down two', 0, 2, 'bcad', 'c'],
    ['up to the top', 2, 0, 'cabd', null],
    ['up by one', 3, 2, 'abdc', 'b'],
    ['past the end', 1, 9, 'acdb', 'd'],
  ])('a clip taken %s', (_, from, to, order, after) => {
    expect(moved(CLIPS, from, to).join('')).toBe(order);
    expect(afterFor(CLIPS, from, to, id)).toBe(after);
  });

  it('stands on the next clip when one is dropped, or on the last', () => {
    expect([afterDrop(4, 1), afterDrop(4, 3), afterDrop(1, 0)]).toEqual([1, 2, 0]);
  });
});

describe('the trim of a clip', () => {
  const clip: ClipView = {
    clipId: 'c',
    filmId: 'f',
    angle: 'endzone',
    inFrame: 100,
    outFrame: 300,
    lock: null,
  };

  it('is the clip until it has one of its own', () => {
    expect(shownFrames({ trims: {} }, clip)).toEqual([100, 300]);
    expect(shownFrames({ trims: { endzone: [120, 300] } }, clip)).toEqual([120, 300]);
  });

  it('shows the frame that an out was set on', () => {
    expect(trimAt([100, 300], 'out', 249, 1000)).toEqual({ ok: true, trim: [100, 250] });
  });

  it('refuses an in behind the out, and says what to do', () => {
    expect(trimAt([100, 300], 'in', 300, 1000)).toEqual({
      ok: false,
      reason: 'The in would lie behind the out. Move the other end first.',
    });
  });

  it('says by how much', () => {
    expect(trimInWords([112, 270], clip)).toBe('in +12, out -30');
    expect(trimInWords([100, 300], clip)).toBe('');
  });
});
