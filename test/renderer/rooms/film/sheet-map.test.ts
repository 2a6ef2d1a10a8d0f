import { describe, expect, it } from 'vitest';
import { bytesInWords } from '../../../../renderer/parts/bytes.ts';
import { lengthInWords, rateInWords } from '../../../../renderer/rooms/film/film-words.ts';
import { LEFT_OUT, mapColumn, mapValue } from '../../../../renderer/rooms/film/sheet-map.ts';

const MAP = { columns: { DN: 'down', COV: 'coverage' }, values: { coverage: { '3S': 'Cover 3 sky' } } };

describe('the mapping of a sheet', () => {
  it('takes a field from the column that had it', () => {
    expect(mapColumn(MAP, 'SHELL', 'coverage').columns).toEqual({
      DN: 'down',
      COV: LEFT_OUT,
      SHELL: 'coverage',
    });
  });

  it('leaves a column out', () => {
    expect(mapColumn(MAP, 'DN', LEFT_OUT).columns).toEqual({ DN: LEFT_OUT, COV: 'coverage' });
  });

  it('learns a value and forgets it', () => {
    const learnt = mapValue(MAP, 'coverage', '2M', 'Cover 2 man');
    expect(learnt.values).toEqual({ coverage: { '3S': 'Cover 3 sky', '2M': 'Cover 2 man' } });
    expect(mapValue(MAP, 'coverage', '3S', null).values).toEqual({});
  });
});

describe('film in words', () => {
  it('says lengths, rates and sizes as people do', () => {
    expect([8.2, 751, 3725].map(lengthInWords)).toEqual(['0:08', '12:31', '1:02:05']);
    expect([30000 / 1001, 30, 59.94].map(rateInWords)).toEqual(['29.97', '30', '59.94']);
    expect([512, 4200, 81_500_000, 2_000_000_000].map(bytesInWords)).toEqual([
      '512 B',
      '4.2 kB',
      '82 MB',
      '2.0 GB',
    ]);
  });
});
