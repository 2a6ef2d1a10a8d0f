import type { ClipLock, ClipView, FilmView } from '../../electron/service/views.ts';
import { type FrameTimes, nearestFrame, type Stretch, startMicros } from './frame-times.ts';

/** How two angles of a play are held to one instant, the surest way first. */
export type SyncWay = 'hand' | 'snap' | 'timecode' | 'order';

export const SYNC_WORDS: Readonly<Record<SyncWay, string>> = {
  hand: 'set by hand',
  snap: 'by the snap',
  timecode: 'by time code',
  order: 'by clip starts',
};

/** What is known of one angle, to hold it to another. */
export interface AngleSide extends Stretch {
  readonly filmId: string;
  /** set by hand: a frame of this clip and the frame of another film at the same instant */
  readonly lock: ClipLock | null;
  /** frame of the snap on this film, where it is stamped */
  readonly snapFrame: number | null;
  /** time code of the film's first frame */
  readonly startTimecode: string | null;
}

/** One instant on both films, micros on each film's own clock. */
export interface Sync {
  readonly by: SyncWay;
  readonly leadMicros: number;
  readonly mateMicros: number;
}

/** Cameras set to one time code differ by less; more means that they were not set to one. */
const TIMECODE_SECONDS = 2;

export function angleSide(
  clip: Pick<ClipView, 'filmId' | 'inFrame' | 'outFrame' | 'lock'>,
  snapFrame: number | null,
  film: Pick<FilmView, 'startTimecode'> | undefined,
): AngleSide {
  return { ...clip, snapFrame, startTimecode: film?.startTimecode ?? null };
}

/** Finds the instant by which two angles are held together. */
export function syncAngles(
  lead: AngleSide,
  leadTimes: FrameTimes,
  mate: AngleSide,
  mateTimes: FrameTimes,
): Sync {
  const at = (by: SyncWay, leadFrame: number, mateFrame: number): Sync => ({
    by,
    leadMicros: startMicros(leadTimes, leadFrame),
    mateMicros: startMicros(mateTimes, mateFrame),
  });
  if (mate.lock?.filmId === lead.filmId) return at('hand', mate.lock.filmFrame, mate.lock.frame);
  if (lead.lock?.filmId === mate.filmId) return at('hand', lead.lock.frame, lead.lock.filmFrame);
  if (lead.snapFrame !== null && mate.snapFrame !== null) return at('snap', lead.snapFrame, mate.snapFrame);
  const order = at('order', lead.inFrame, mate.inFrame);
  const leadCode = timecodeSeconds(lead.startTimecode, leadTimes.fps);
  const mateCode = timecodeSeconds(mate.startTimecode, mateTimes.fps);
  if (leadCode === null || mateCode === null) return order;
  const mateMicros =
    startMicros(mateTimes, 0) + (leadCode - mateCode) * 1e6 + (order.leadMicros - startMicros(leadTimes, 0));
  const apart = Math.abs(mateMicros - order.mateMicros) / 1e6;
  return apart <= TIMECODE_SECONDS ? { by: 'timecode', leadMicros: order.leadMicros, mateMicros } : order;
}

/** The other angle's frame that is nearest in time to a frame of the leading one. */
export function mateFrameAt(sync: Sync, leadTimes: FrameTimes, frame: number, mateTimes: FrameTimes): number {
  return nearestFrame(mateTimes, sync.mateMicros + startMicros(leadTimes, frame) - sync.leadMicros);
}

/** The other angle has no picture at that instant: it began later or ended before. */
export function beyondMate(sync: Sync, leadTimes: FrameTimes, frame: number, mateTimes: FrameTimes): boolean {
  const micros = sync.mateMicros + startMicros(leadTimes, frame) - sync.leadMicros;
  const gap = 1e6 / (mateTimes.fps || 30);
  const last = startMicros(mateTimes, mateTimes.ptsMicros.length - 1);
  return micros < startMicros(mateTimes, 0) - gap || micros > last + gap;
}

/**
 * Seconds since midnight of a time code `hh:mm:ss:ff`, a `;` before the frames where numbers are dropped. Null where it
 * cannot be read. Source: SMPTE ST 12-1 (from memory): drop frame leaves out frame numbers 0 and 1 (0 to 3 at 59.94) at the
 * start of each minute but every tenth.
 */
export function timecodeSeconds(code: string | null, fps: number): number | null {
  const parts = /^(\d{1,2}):(\d{2}):(\d{2})([:;.])(\d{1,3})$/.exec(code ?? '');
  if (!parts || !(fps > 0)) return null;
  const [hours, minutes, seconds, , frames] = parts.slice(1).map(Number);
  const nominal = Math.round(fps);
  const whole = hours! * 60 + minutes!;
  const dropped = parts[4] === ';' ? 2 * Math.round(nominal / 30) * (whole - Math.floor(whole / 10)) : 0;
  return ((whole * 60 + seconds!) * nominal + frames! - dropped) / fps;
}
