/** In and out of one clip in a cut-up: frames of its film, in is the first frame, out the first one after. */

import type { ClipView, CutupItemView } from '../../../electron/service/views.ts';

export type Trim = readonly [inFrame: number, outFrame: number];

/** What of the clip is shown: its trim where it has one, else all of it. */
export function shownFrames(item: Pick<CutupItemView, 'trims'>, clip: ClipView): Trim {
  return item.trims[clip.angle] ?? [clip.inFrame, clip.outFrame];
}

export type TrimChange =
  | { readonly ok: true; readonly trim: Trim }
  | { readonly ok: false; readonly reason: string };

/** The trim with its in, or its out, on the frame shown. The frame shown at the out is still shown. */
export function trimAt(current: Trim, side: 'in' | 'out', frame: number, filmFrames: number): TrimChange {
  if (frame < 0 || frame >= filmFrames) return { ok: false, reason: 'The film has no such frame.' };
  const trim: Trim = side === 'in' ? [frame, current[1]] : [current[0], frame + 1];
  if (trim[1] <= trim[0]) {
    const words = side === 'in' ? 'The in would lie behind the out.' : 'The out would lie before the in.';
    return { ok: false, reason: `${words} Move the other end first.` };
  }
  return { ok: true, trim };
}

/** How much the trim takes off or adds at each end, in frames: `in +12, out -30`; empty for the clip itself. */
export function trimInWords(trim: Trim, clip: Pick<ClipView, 'inFrame' | 'outFrame'>): string {
  const parts: string[] = [];
  const signed = (frames: number) => (frames > 0 ? `+${frames}` : `${frames}`);
  if (trim[0] !== clip.inFrame) parts.push(`in ${signed(trim[0] - clip.inFrame)}`);
  if (trim[1] !== clip.outFrame) parts.push(`out ${signed(trim[1] - clip.outFrame)}`);
  return parts.join(', ');
}
