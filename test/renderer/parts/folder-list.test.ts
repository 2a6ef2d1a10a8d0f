import { describe, expect, it } from 'vitest';
import { pathIn, pathLines, withEnding } from '../../../renderer/parts/paths/folder-list.ts';

const VIEW = {
  path: '/film/week 1',
  parent: '/film',
  folders: [{ name: 'end zone', path: '/film/week 1/end zone' }],
  files: [
    { name: 'play 10.mp4', path: '/film/week 1/play 10.mp4', bytes: 10, kind: 'film' as const },
    { name: 'play 9.mp4', path: '/film/week 1/play 9.mp4', bytes: 9, kind: 'film' as const },
    { name: 'breakdown.csv', path: '/film/week 1/breakdown.csv', bytes: 5, kind: 'sheet' as const },
  ],
};

describe('a folder in the path chooser', () => {
  it.each([
    ['film', ['Folder above', 'end zone', 'play 9.mp4', 'play 10.mp4']],
    ['sheet', ['Folder above', 'end zone', 'breakdown.csv']],
    ['folder', ['Folder above', 'end zone']],
  ] as const)('lists for %s what can be chosen, in the order people number it', (kind, expected) => {
    expect(pathLines(VIEW, kind).map((line) => line.name)).toEqual(expected);
  });

  it.each([
    ['/film', 'reel.mp4', '/film/reel.mp4'],
    ['/', 'reel.mp4', '/reel.mp4'],
    ['C:\\film', 'reel.mp4', 'C:\\film\\reel.mp4'],
    ['C:\\', 'reel.mp4', 'C:\\reel.mp4'],
  ])('joins %s and a name', (folder, name, expected) => {
    expect(pathIn(folder, name)).toBe(expected);
  });

  it('gives a name the usual ending unless it has a known one', () => {
    expect(['reel', 'reel.M3U8', 'week 1.v2'].map((name) => withEnding(name, ['.mp4', '.m3u8']))).toEqual([
      'reel.mp4',
      'reel.M3U8',
      'week 1.v2.mp4',
    ]);
  });
});
