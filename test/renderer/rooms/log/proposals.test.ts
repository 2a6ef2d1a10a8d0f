import { describe, expect, it } from 'vitest';
import type { ProposalView } from '../../../../electron/service/views.ts';
import {
  chosenPlay,
  join,
  moveEnd,
  reject,
  splitAt,
} from '../../../../renderer/rooms/log/marking/proposals.ts';

const proposal = (
  inFrame: number,
  outFrame: number,
  play: number,
  other: Partial<ProposalView> = {},
): ProposalView => ({
  inFrame,
  outFrame,
  snapFrame: inFrame + 20,
  angle: 'sideline',
  play,
  ...other,
});
const three = { list: [proposal(0, 100, 1), proposal(100, 200, 2), proposal(200, 300, 3)], at: 1 };

describe('proposed plays on the track', () => {
  it('join with the next one, keeping the first snap', () => {
    expect(join(three).list).toEqual([proposal(0, 100, 1), proposal(100, 300, 2)]);
    expect(join({ ...three, at: 2 })).toEqual({ ...three, at: 2 });
  });

  it('split at the frame shown, each part with the snap that lies in it', () => {
    const { list, at } = splitAt(three, 150);
    expect(list.slice(1, 3)).toEqual([proposal(100, 150, 2), proposal(150, 200, 4, { snapFrame: null })]);
    expect(at).toBe(2);
    expect(splitAt(three, 100)).toEqual(three);
  });

  it('move their ends by single frames and never turn around', () => {
    expect(moveEnd(three, 'in', 101).list[1]!.inFrame).toBe(101);
    expect(moveEnd(three, 'out', 187).list[1]!.outFrame).toBe(188);
    expect(moveEnd(three, 'in', 130).list[1]!.snapFrame).toBeNull();
    expect(moveEnd(three, 'out', 90)).toEqual(three);
  });

  it('are left out, and accepted, with the other angle of the same play', () => {
    const pair = {
      list: [proposal(0, 100, 1), proposal(100, 200, 1, { angle: 'endzone' }), proposal(200, 300, 2)],
      at: 1,
    };
    expect(chosenPlay(pair)).toHaveLength(2);
    expect(reject(pair)).toEqual({ list: [proposal(200, 300, 2)], at: 0 });
    expect(reject({ list: [proposal(0, 9, 1)], at: 0 })).toEqual({ list: [], at: -1 });
  });
});
