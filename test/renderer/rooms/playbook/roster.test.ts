import { describe, expect, it } from 'vitest';
import type { PlayerView } from '../../../../electron/service/views.ts';
import { printQuestion } from '../../../../football/question/print.ts';
import { BUILT_IN_FIELDS } from '../../../../football/vocabulary/fields.ts';
import { fieldKeyFor } from '../../../../renderer/rooms/playbook/field-key.ts';
import {
  jerseyNumber,
  playersShown,
  playsOfPlayer,
} from '../../../../renderer/rooms/playbook/roster/players.ts';
import { termRows, termsFound } from '../../../../renderer/rooms/playbook/term-tree.ts';

function player(number: number | null, name: string, team: string, position = 'WR'): PlayerView {
  return { id: `${team} ${number}`, number, name, position, team };
}

const PLAYERS = [
  player(84, 'Ira Novak', 'Herons'),
  player(7, 'Cal Whitfield', 'Herons', 'QB'),
  player(7, 'Dario Pine', 'Mariners', 'CB'),
  player(null, 'Sam Ode', 'Herons'),
];

describe('the roster', () => {
  it.each([
    ['a team by number, those without one last', 'Herons', '', ['Cal Whitfield', 'Ira Novak', 'Sam Ode']],
    ['a number on either side', null, '#7', ['Cal Whitfield', 'Dario Pine']],
    ['a part of a name', null, 'nov', ['Ira Novak']],
    ['a position', null, 'qb', ['Cal Whitfield']],
  ])('shows %s', (_, team, sought, names) => {
    expect(playersShown(PLAYERS, team, sought).map((each) => each.name)).toEqual(names);
  });

  it('finds a player’s plays whatever his part in them was', () => {
    const where = printQuestion(playsOfPlayer(PLAYERS[0]!, BUILT_IN_FIELDS));
    expect(where).toContain("target = '#84 Ira Novak' OR");
    expect(where).toContain("returner = '#84 Ira Novak'");
  });

  it.each([
    ['7', 7],
    ['#00', 0],
    ['', null],
    ['100', undefined],
    ['QB', undefined],
  ])('reads %j as a jersey number', (text, number) => {
    expect(jerseyNumber(text)).toBe(number);
  });
});

describe('the playbook', () => {
  it.each([
    ['Block type', 'blockType'],
    ['Défense call #2', 'defenseCall2'],
    ['3rd key', ''],
    ['', ''],
  ])('names a field %j in questions as %j', (label, key) => {
    expect(fieldKeyFor(label)).toBe(key);
  });

  it('shows a found member under its family', () => {
    const term = (id: string, name: string, parentId: string | null) => ({
      id,
      field: 'coverage',
      name,
      parentId,
      aliases: [],
      uses: 0,
    });
    const rows = termRows([term('3', 'Cover 3', null), term('s', 'sky', '3'), term('4', 'Cover 4', null)]);
    expect(termsFound(rows, 'SKY').map((row) => row.term.name)).toEqual(['Cover 3', 'sky']);
  });
});
