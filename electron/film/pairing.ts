import type { Angle } from './angle.ts';
import { guessAngle, guessPlayNumbers, naturalOrder } from './names.ts';

export interface FilmToPair {
  readonly path: string;
  /** given by the coach; without it the name is asked */
  readonly angle?: Angle;
}

export interface ProposedPlay {
  /** as the names tell; null when they don't */
  readonly playNumber: number | null;
  /** indexes into the list that was given, sideline before end zone */
  readonly films: readonly { readonly index: number; readonly angle: Angle | null }[];
  /** how the films of this play were put together */
  readonly by: 'number' | 'order' | 'alone';
}

const ANGLE_ORDER: readonly (Angle | null)[] = ['sideline', 'endzone', 'other', null];

interface Candidate {
  readonly index: number;
  readonly angle: Angle | null;
  readonly number: number | null;
  readonly place: number;
}

function isUnique(numbers: readonly (number | null)[]): boolean {
  return numbers.every((number) => number !== null) && new Set(numbers).size === numbers.length;
}

function play(films: readonly Candidate[], by: ProposedPlay['by']): ProposedPlay & { place: number } {
  const sorted = [...films].sort(
    (one, other) =>
      ANGLE_ORDER.indexOf(one.angle) - ANGLE_ORDER.indexOf(other.angle) || one.place - other.place,
  );
  return {
    playNumber: by === 'order' ? null : (films[0]?.number ?? null),
    films: sorted.map(({ index, angle }) => ({ index, angle })),
    by,
    place: Math.min(...films.map((film) => film.place)),
  };
}

/** Films whose names carry play numbers: those of one number belong to one play, one film of each angle. */
function pairByNumber(films: readonly Candidate[]): (ProposedPlay & { place: number })[] {
  const groups = new Map<string, Candidate[]>();
  for (const film of films) {
    const key = film.number === null ? `place ${film.place}` : `number ${film.number}`;
    groups.set(key, [...(groups.get(key) ?? []), film]);
  }
  return [...groups.values()].flatMap((group) => {
    const known = group.filter((film) => film.angle !== null).map((film) => film.angle);
    const clash = new Set(known).size !== known.length;
    if (group.length === 1 || clash) return group.map((film) => play([film], 'alone'));
    return [play(group, 'number')];
  });
}

/**
 * Proposes the plays of a set of clips, one file a play and angle. Angles are put together by the play number in their
 * names, else, where both angles have equally many files and no number says otherwise, by their order. What can't be
 * decided stays alone.
 */
export function proposePlays(films: readonly FilmToPair[]): ProposedPlay[] {
  const numbers = guessPlayNumbers(films.map((film) => film.path));
  const order = naturalOrder(films.map((film) => film.path));
  const placeOf = new Map(order.map((path, place) => [path, place]));
  const candidates = films.map((film, index) => ({
    index,
    angle: film.angle ?? guessAngle(film.path),
    number: numbers[index] ?? null,
    place: placeOf.get(film.path) ?? index,
  }));
  const ofAngle = (angle: Angle | null) =>
    candidates.filter((film) => film.angle === angle).sort((one, other) => one.place - other.place);
  const sideline = ofAngle('sideline');
  const endzone = ofAngle('endzone');
  const numbered =
    isUnique(sideline.map((film) => film.number)) && isUnique(endzone.map((film) => film.number));

  let plays: (ProposedPlay & { place: number })[];
  if (sideline.length > 0 && sideline.length === endzone.length && !numbered) {
    const rest = candidates.filter((film) => film.angle !== 'sideline' && film.angle !== 'endzone');
    plays = [
      ...sideline.map((film, at) => play([film, endzone[at]!], 'order')),
      ...rest.map((film) => play([film], 'alone')),
    ];
  } else {
    plays = pairByNumber(candidates);
  }
  const sorted = plays.sort((one, other) => {
    if (one.playNumber !== null && other.playNumber !== null) return one.playNumber - other.playNumber;
    return one.place - other.place;
  });
  return sorted.map(({ playNumber, films: members, by }) => ({ playNumber, films: members, by }));
}
