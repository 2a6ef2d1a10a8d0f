import { describe, expect, it } from 'vitest';
import { readAddReport, reportInWords } from '../../../../renderer/rooms/film/add-report.ts';
import { sortDropped } from '../../../../renderer/rooms/film/bring-in/dropped.ts';

const film = (known: boolean) => ({ filmId: 'f', path: '/film/1.mp4', known });

describe('what bringing film in reports', () => {
  it.each([
    [
      'done',
      {
        added: [film(false), film(true)],
        refused: [{ path: '/x', reason: 'why' }],
        plays: { made: 1, paired: 1 },
      },
      '2 films added (1 was here already), 1 refused; 1 play made, 1 got another angle',
    ],
    [
      'done',
      { added: [film(false)], refused: [], plays: { made: 0, paired: 0 }, proxies: 2 },
      '1 film added; 2 proxies to be made',
    ],
    [
      'cancelled',
      { added: [film(false)], refused: [], plays: { made: 1, paired: 0 } },
      'cancelled; 1 film added; 1 play made',
    ],
    ['failed', null, 'stopped; nothing was added'],
    ['done', { added: 'three', refused: [{ path: 4 }] }, '0 films added'],
  ] as const)('%s is said in words', (state, report, words) => {
    expect(reportInWords(state, readAddReport(report))).toBe(words);
  });

  it('names the films that came a second time', () => {
    const report = readAddReport({ added: [film(false), { ...film(true), path: 'D:\\card 2\\7.mp4' }] });
    expect(report?.knownNames).toEqual(['7.mp4']);
  });

  it('tells dropped sheets from film', () => {
    expect(sortDropped(['/a/1.mp4', '/a/week1.XLSX', '/a/folder'])).toEqual({
      films: ['/a/1.mp4', '/a/folder'],
      sheets: ['/a/week1.XLSX'],
    });
  });
});
