import type { Angle, ClipView, PlayView } from '../../electron/service/views.ts';

const ORDER: Readonly<Record<Angle, number>> = { sideline: 0, endzone: 1, other: 2 };

export const ANGLE_WORDS: Readonly<Record<Angle, string>> = {
  sideline: 'Sideline',
  endzone: 'End zone',
  other: 'Other angle',
};

/** A play's clips in the trade's habit: sideline, then end zone. */
export function clipsInOrder(clips: readonly ClipView[]): ClipView[] {
  return [...clips].sort((a, b) => ORDER[a.angle] - ORDER[b.angle]);
}

/** The clip of the angle that is wanted, else the first there is. */
export function clipOf(play: PlayView, angle: Angle): ClipView | null {
  return play.clips.find((clip) => clip.angle === angle) ?? clipsInOrder(play.clips)[0] ?? null;
}

/** The clip after this one, round and round; null where there is no other. */
export function otherClip(clips: readonly ClipView[], filmId: string, angle: Angle): ClipView | null {
  const ordered = clipsInOrder(clips);
  if (ordered.length < 2) return null;
  const here = ordered.findIndex((clip) => clip.filmId === filmId && clip.angle === angle);
  return ordered[(here + 1) % ordered.length] ?? null;
}

/** The frame of the snap on that film, where it is stamped there. */
export function snapFrameOn(play: PlayView, filmId: string): number | null {
  return play.stamped.find((moment) => moment.kind === 'snap' && moment.filmId === filmId)?.frame ?? null;
}
