import type { ProposalView } from '../../../../electron/service/views.ts';

/** A list of proposed plays with one of them chosen. */
export interface Proposals {
  readonly list: readonly ProposalView[];
  /** index into `list`; -1 where it is empty */
  readonly at: number;
}

function put(list: readonly ProposalView[], at: number): Proposals {
  return { list, at: list.length === 0 ? -1 : Math.min(Math.max(at, 0), list.length - 1) };
}

export function choose({ list }: Proposals, at: number): Proposals {
  return put(list, at);
}

/** Leaves the chosen one out, with the other angle of the same play. */
export function reject({ list, at }: Proposals): Proposals {
  const gone = list[at]?.play;
  return put(
    list.filter((p) => p.play !== gone),
    list.findIndex((p) => p.play === gone),
  );
}

/** Makes one of the chosen stretch and the one after it. */
export function join({ list, at }: Proposals): Proposals {
  const [one, next] = [list[at], list[at + 1]];
  if (!one || !next) return { list, at };
  const joined = { ...one, outFrame: next.outFrame, snapFrame: one.snapFrame ?? next.snapFrame };
  return put([...list.slice(0, at), joined, ...list.slice(at + 2)], at);
}

/** Makes two of the chosen stretch: the second one begins with the frame. */
export function splitAt({ list, at }: Proposals, frame: number): Proposals {
  const one = list[at];
  if (!one || frame <= one.inFrame || frame >= one.outFrame) return { list, at };
  const snapIn = (inFrame: number, outFrame: number) =>
    one.snapFrame !== null && one.snapFrame >= inFrame && one.snapFrame < outFrame ? one.snapFrame : null;
  const play = Math.max(...list.map((p) => p.play)) + 1;
  const first = { ...one, outFrame: frame, snapFrame: snapIn(one.inFrame, frame) };
  const second = { ...one, inFrame: frame, snapFrame: snapIn(frame, one.outFrame), play };
  return put([...list.slice(0, at), first, second, ...list.slice(at + 1)], at + 1);
}

/** Moves an end of the chosen stretch to a frame: `in` to begin with it, `out` to end with it. */
export function moveEnd({ list, at }: Proposals, end: 'in' | 'out', frame: number): Proposals {
  const one = list[at];
  if (!one) return { list, at };
  const moved = end === 'in' ? { ...one, inFrame: frame } : { ...one, outFrame: frame + 1 };
  if (moved.outFrame <= moved.inFrame) return { list, at };
  const { snapFrame, inFrame, outFrame } = moved;
  const kept = snapFrame !== null && snapFrame >= inFrame && snapFrame < outFrame ? snapFrame : null;
  return put(list.with(at, { ...moved, snapFrame: kept }), at);
}

/** The chosen play with all its angles. */
export function chosenPlay({ list, at }: Proposals): readonly ProposalView[] {
  const one = list[at];
  return one ? list.filter((p) => p.play === one.play) : [];
}
