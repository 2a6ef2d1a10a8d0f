import { describe, expect, it } from 'vitest';
import type { CutupView } from '../../../../electron/service/views.ts';
import { choicesWith } from '../../../../renderer/rooms/teach/angle-choices.ts';
import { exportInWords } from '../../../../renderer/rooms/teach/export-report.ts';
import { byFolder } from '../../../../renderer/rooms/teach/folders.ts';

function cutup(name: string, folder: string | null): CutupView {
  return { cutupId: name, name, note: null, folder, where: null, angles: ['sideline'], items: 1 };
}

describe('what an export says', () => {
  it.each([
    [
      { path: '/reels/stick.mp4', frames: 14313, seconds: 477.1, bytes: 81_000_000, without: [3, 7] },
      'written to /reels/stick.mp4 (14,313 frames, 477.1 s, 81 MB); without clips 3, 7, of which there is no film',
    ],
    [{ format: 'csv', path: '/reels/stick.csv', rows: 1 }, 'written to /reels/stick.csv (1 play)'],
    [null, 'not written'],
  ])('%j in words', (report, words) => {
    expect(exportInWords(report)).toBe(words);
  });
});

describe('the list of cut-ups', () => {
  it('goes by folder, weeks by their number, and those without one last', () => {
    const folders = byFolder([
      cutup('b', null),
      cutup('x', 'Week 10'),
      cutup('z', 'Week 2'),
      cutup('a', null),
    ]);
    expect(folders.map(({ folder, items }) => [folder, items.map((each) => each.name)])).toEqual([
      ['Week 2', ['z']],
      ['Week 10', ['x']],
      [null, ['a', 'b']],
    ]);
  });

  it('offers the order of angles that a cut-up has, whatever it is', () => {
    expect(choicesWith(['other', 'endzone']).at(-1)?.label).toBe('other, endzone');
    expect(choicesWith(['sideline', 'endzone'])[0]?.value).toBe('sideline,endzone');
  });
});
