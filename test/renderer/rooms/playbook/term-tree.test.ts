import { describe, expect, it } from 'vitest';
import type { TermView } from '../../../../electron/service/views.ts';
import {
  familyPath,
  possibleFamilies,
  splitAliases,
  termRows,
} from '../../../../renderer/rooms/playbook/term-tree.ts';

function term(id: string, name: string, parentId: string | null = null, uses = 0): TermView {
  return { id, field: 'coverage', name, parentId, aliases: [], uses };
}

const COVERAGES = [
  term('10', 'Cover 10'),
  term('3', 'Cover 3', null, 5),
  term('sky', 'Cover 3 sky', '3', 4),
  term('buzz', 'Cover 3 buzz', '3', 2),
  term('late', 'Cover 3 sky late', 'sky', 1),
];

describe('the families of a playbook', () => {
  it('stand together, and names with numbers go by the number', () => {
    expect(termRows(COVERAGES).map((row) => [row.depth, row.term.name])).toEqual([
      [0, 'Cover 3'],
      [1, 'Cover 3 buzz'],
      [1, 'Cover 3 sky'],
      [2, 'Cover 3 sky late'],
      [0, 'Cover 10'],
    ]);
  });

  it('count the uses of every member', () => {
    const uses = new Map(termRows(COVERAGES).map((row) => [row.term.id, row.familyUses]));
    expect([uses.get('3'), uses.get('sky'), uses.get('10')]).toEqual([12, 5, 0]);
  });

  it('keep a term whose family is hidden', () => {
    expect(termRows([term('sky', 'Cover 3 sky', 'gone')]).map((row) => row.depth)).toEqual([0]);
  });

  it('take no member of their own as their family', () => {
    expect(possibleFamilies(COVERAGES, '3').map((each) => each.id)).toEqual(['10']);
  });

  it('say the whole path of a member', () => {
    expect(familyPath(COVERAGES, COVERAGES[4]!)).toBe('Cover 3 › Cover 3 sky › Cover 3 sky late');
  });

  it('read aliases from one line', () => {
    expect(splitAliases(' c3, three,, c3 ')).toEqual(['c3', 'three']);
  });
});
