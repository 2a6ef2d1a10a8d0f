import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { momentId, PREDICTED_SNAP } from '../../../db/journal/entities.ts';
import { ProblemError } from '../../../football/result.ts';
import { startMicros } from '../../film/frame-table.ts';
import { filmOrProblem, frameTableOf } from '../film/shelf.ts';
import { keptSplit } from '../film/split-film.ts';
import type { Station } from '../station.ts';
import type { Angle, ChangedView, ProposalsView, ProposalView } from '../views.ts';
import { changedView } from './play-views.ts';
import { clipChanges, newPlayChanges } from './tags.ts';

/**
 * Plays proposed for a film, without those over which a clip lies already; null where nobody has looked yet.
 * @throws ProblemError `film-unknown`
 */
export function proposalsOf(station: Station, filmId: string): ProposalsView {
  filmOrProblem(station.library, filmId);
  const split = keptSplit(station.library, filmId);
  if (!split) return { filmId, looked: false, cuts: [], proposals: [] };
  const taken = clipsOfFilm(station, filmId);
  const free = split.plays.filter((p) => !taken.some((c) => overlaps(c, p)));
  return { filmId, looked: true, cuts: split.cuts, proposals: free };
}

interface Range {
  readonly inFrame: number;
  readonly outFrame: number;
}

/** Half of the shorter one in common: the same stretch, whatever was trimmed. */
function overlaps(a: Range, b: Range): boolean {
  const common = Math.min(a.outFrame, b.outFrame) - Math.max(a.inFrame, b.inFrame);
  return common > 0.5 * Math.min(a.outFrame - a.inFrame, b.outFrame - b.inFrame);
}

function clipsOfFilm(station: Station, filmId: string): Range[] {
  return station.library.db
    .prepare(
      `SELECT c.in_frame AS inFrame, c.out_frame AS outFrame FROM clips c JOIN plays p ON p.id = c.play_id AND p.removed = 0
       WHERE c.film_id = ? AND c.removed = 0`,
    )
    .all(filmId) as Range[];
}

/**
 * Makes plays of proposals that a person has accepted, in one gesture: one play for each number, with a clip for each
 * angle. A snap goes in as a prediction, not as a stamp.
 * @throws ProblemError `film-unknown`, `film-without-game`, `clip-range`, `proposals-none`
 */
export async function acceptProposals(
  station: Station,
  filmId: string,
  proposals: readonly ProposalView[],
): Promise<{ playIds: string[]; changed: ChangedView }> {
  const film = filmOrProblem(station.library, filmId);
  const gameId = film.gameId;
  if (gameId === null) {
    throw new ProblemError({
      code: 'film-without-game',
      message: `${film.name} belongs to no game, so that its plays would have no place.`,
      kept: 'Nothing was changed.',
      next: 'Bring the film in to a game.',
    });
  }
  if (proposals.length === 0) {
    throw new ProblemError({
      code: 'proposals-none',
      message: `There is no proposed play to accept in ${film.name}.`,
      kept: 'Nothing was changed.',
      next: 'Mark plays by hand: in on the first frame, out on the last.',
    });
  }
  for (const { inFrame, outFrame } of proposals) {
    if (inFrame < outFrame && outFrame <= film.frames) continue;
    throw new ProblemError({
      code: 'clip-range',
      message: `${film.name} has frames 0 to ${film.frames - 1}; a play from ${inFrame} up to ${outFrame} does not lie in it.`,
      kept: 'No play was made.',
      next: 'Move its bounds.',
    });
  }
  const table = await frameTableOf(station.library, filmId);
  const changes: Change[] = [];
  const playIds = new Map<number, string>();
  const angles = new Map<string, Set<Angle>>();
  let number = lastPlayNumber(station, gameId);
  for (const proposal of [...proposals].sort((a, b) => a.inFrame - b.inFrame)) {
    const known = playIds.get(proposal.play);
    const playId = known ?? uuidv7();
    if (!known) {
      number += 1;
      playIds.set(proposal.play, playId);
      changes.push(...newPlayChanges(playId, gameId, number));
    }
    const angle = angleFor(proposal.angle, film.angle as Angle, angles, playId);
    const { inFrame, outFrame, snapFrame } = proposal;
    changes.push(...clipChanges(uuidv7(), { playId, filmId, angle, inFrame, outFrame }));
    if (snapFrame !== null && snapFrame >= inFrame && snapFrame < outFrame && !known) {
      changes.push({
        entity: 'moment',
        id: momentId(playId, filmId, PREDICTED_SNAP),
        field: 'at',
        value: [snapFrame, startMicros(table, snapFrame)],
        origin: 'predicted',
      });
    }
  }
  const label = playIds.size === 1 ? `accept play ${number}` : `accept ${playIds.size} plays`;
  station.library.journal.commit({ label, film: { filmId, frame: proposals[0]!.inFrame } }, changes);
  const ids = [...playIds.values()];
  return { playIds: ids, changed: changedView(station, ids) };
}

/** The proposed angle, else the film's; a play has one clip of an angle, so that a second one is `other`. */
function angleFor(proposed: Angle, ofFilm: Angle, seen: Map<string, Set<Angle>>, playId: string): Angle {
  const taken = seen.get(playId) ?? new Set<Angle>();
  seen.set(playId, taken);
  const wanted = proposed === 'other' ? ofFilm : proposed;
  const angle = taken.has(wanted) ? 'other' : wanted;
  taken.add(angle);
  return angle;
}

function lastPlayNumber(station: Station, gameId: string): number {
  return station.library.db
    .prepare('SELECT coalesce(max(play_number), 0) FROM plays WHERE game_id = ? AND removed = 0')
    .pluck()
    .get(gameId) as number;
}
