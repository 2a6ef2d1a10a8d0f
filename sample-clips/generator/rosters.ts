/** Both rosters. Every name is invented; numbers are those the rules and custom give to the position. */

export type TeamName = 'Herons' | 'Mariners';

export interface RosterPlayer {
  readonly team: TeamName;
  readonly number: number;
  readonly name: string;
  readonly position: string;
}

type Line = readonly [number: number, name: string, position: string];

const HERONS: readonly Line[] = [
  [7, 'Marcus Ellery', 'QB'],
  [12, 'Owen Pritchard', 'QB'],
  [22, 'Dante Okafor', 'RB'],
  [28, 'Will Sandoval', 'RB'],
  [41, 'Hank Lindqvist', 'FB'],
  [1, 'Jaylen Prewitt', 'WR'],
  [4, 'Tomas Arrieta', 'WR'],
  [11, 'Caleb Nguyen', 'WR'],
  [15, 'Isaac Thorne', 'WR'],
  [83, 'Drew Castellan', 'WR'],
  [87, 'Ben Haverkamp', 'TE'],
  [82, 'Miles Obande', 'TE'],
  [72, 'Andre Kowalski', 'LT'],
  [65, 'Peter Manu', 'LG'],
  [54, 'Joe Brannigan', 'C'],
  [68, 'Elijah Stroud', 'RG'],
  [75, 'Viktor Hale', 'RT'],
  [91, 'Terrell Quist', 'DE'],
  [97, 'Sam Fonoti', 'DT'],
  [94, 'Luke Drummond', 'DT'],
  [99, 'Kofi Barlow', 'DE'],
  [52, 'Grant Mulvaney', 'LB'],
  [45, 'Deshawn Pike', 'LB'],
  [33, 'Eric Solheim', 'LB'],
  [2, 'Rashad Lively', 'CB'],
  [24, 'Nico Farrow', 'CB'],
  [5, 'Amari Whitlock', 'NB'],
  [20, 'Jonah Reyes', 'SS'],
  [8, 'Trey Maddox', 'FS'],
  [36, 'Felix Oyelaran', 'K'],
  [39, 'Gus Wetherby', 'P'],
  [59, 'Cole Tamura', 'LS'],
];

const MARINERS: readonly Line[] = [
  [10, 'Reid Calloway', 'QB'],
  [14, 'Anton Weiss', 'QB'],
  [21, 'Kendrick Moss', 'RB'],
  [32, 'Luis Benavides', 'RB'],
  [44, 'Paul Achterberg', 'FB'],
  [3, 'Devin Starling', 'WR'],
  [6, 'Mateo Cruzado', 'WR'],
  [13, 'Ian Falk', 'WR'],
  [17, 'Shawn Adeyemi', 'WR'],
  [81, 'Cory Langston', 'WR'],
  [88, 'Tate Mikkelsen', 'TE'],
  [85, 'Joel Abernathy', 'TE'],
  [77, 'Bruno Salter', 'LT'],
  [63, 'Niko Papadakis', 'LG'],
  [51, 'Ray Donnelly', 'C'],
  [66, 'Jamal Hutchins', 'RG'],
  [71, 'Oskar Lund', 'RT'],
  [92, 'Darius Cope', 'DE'],
  [98, 'Manny Tuala', 'DT'],
  [90, 'Seth Greer', 'DT'],
  [95, 'Malik Trent', 'DE'],
  [55, 'Bo Ferris', 'LB'],
  [48, 'Adrian Voss', 'LB'],
  [43, 'Kyle Renner', 'LB'],
  [9, 'Tavon Beck', 'CB'],
  [25, 'Marco Linden', 'CB'],
  [16, 'Julian Sato', 'NB'],
  [31, 'Clay Rutherford', 'SS'],
  [19, 'Emeka Dunn', 'FS'],
  [38, 'Harry Zielinski', 'K'],
  [47, 'Noel Bristow', 'P'],
  [58, 'Dean Kupono', 'LS'],
];

function lines(team: TeamName, list: readonly Line[]): RosterPlayer[] {
  return list.map(([number, name, position]) => ({ team, number, name, position }));
}

export const ROSTER: readonly RosterPlayer[] = [...lines('Herons', HERONS), ...lines('Mariners', MARINERS)];

/** The nth player of a position, the first being the starter. */
export function playerAt(team: TeamName, position: string, nth = 0): RosterPlayer {
  const found = ROSTER.filter((p) => p.team === team && p.position === position)[nth];
  if (!found) throw new RangeError(`${team} have no ${position} number ${nth + 1}`);
  return found;
}

export function otherTeam(team: TeamName): TeamName {
  return team === 'Herons' ? 'Mariners' : 'Herons';
}
