import { describe, expect, it } from 'vitest';
import { stretchAround } from '../../../renderer/player/near-plays.ts';

const ids = (count: number) => Array.from({ length: count }, (_, i) => `p${i}`);

describe('a long list of plays under the film', () => {
  it('is read as a whole while it is short', () => {
    expect(stretchAround(ids(240), 200)).toHaveLength(240);
  });

  it.each([
    [0, 'p0', 'p239'],
    [239, 'p0', 'p239'],
    [240, 'p240', 'p479'],
    [599, 'p480', 'p599'],
  ])('is read by stretches, play %i from %s to %s', (index, first, last) => {
    const stretch = stretchAround(ids(600), index);
    expect([stretch[0], stretch.at(-1)]).toEqual([first, last]);
  });
});
