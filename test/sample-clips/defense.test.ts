import { describe, expect, it } from 'vitest';
import type { DefenseSlot } from '../../sample-clips/generator/calls.ts';
import type { Duty } from '../../sample-clips/generator/coverages.ts';
import { DEFENDERS, distance, PASSES, placeOf, RUNS, type Scrimmage, trackOf } from './the-game.ts';

/** How many come, by the name of the pressure; common practice, no source. */
const COMING = { 'four-man rush': 4, edge: 5, field: 5, 'A-gap': 5, zero: 6 } as const;

/** The last moment at which everybody still plays his zone: the ball is out, or two seconds are gone. */
function lookTick(play: Scrimmage): number {
  return Math.min((play.sim.moments.release ?? 99) + 6, 57);
}

/** Defenders who cover, by what they were told, with where they are by then. */
function cover(play: Scrimmage): { slot: DefenseSlot; duty: Duty; across: number; depth: number }[] {
  return [...play.told.duties]
    .filter(([, duty]) => duty.kind !== 'rush')
    .map(([slot, duty]) => {
      const at = placeOf(play.sim, slot, lookTick(play));
      return { slot, duty, across: at.across, depth: at.downfield };
    });
}

function deep(play: Scrimmage) {
  return cover(play)
    .filter((d) => d.depth > 10.3)
    .sort((a, b) => a.across - b.across);
}

describe('the rush in the sample film', () => {
  it.each(PASSES)(
    'is as many as the tag says, across the line within two and a half seconds: $name',
    (play) => {
      const until = Math.min(75, play.sim.moments.catch ?? play.sim.moments.whistle);
      const crossed = DEFENDERS.filter((slot) =>
        trackOf(play.sim, slot, until).some((at) => at.downfield < 0),
      );
      expect(crossed.length).toBe(play.tags.rushers);
      expect(play.tags.rushers).toBe(COMING[play.tags.pressure as keyof typeof COMING]);
    },
  );

  it('brings the edge blitzer outside the tackles, and the A-gap blitzer next to the ball', () => {
    let edge = 0;
    let gap = 0;
    for (const play of PASSES) {
      const crossing = (slot: DefenseSlot) =>
        trackOf(play.sim, slot).find((at) => at.downfield < 0)!.across - play.sim.ballAcross;
      if (play.tags.pressure === 'edge') {
        expect(Math.abs(crossing('W')), play.name).toBeGreaterThan(3.5);
        edge++;
      }
      if (play.tags.pressure === 'A-gap') {
        expect(Math.abs(crossing('M')), play.name).toBeLessThan(1.6);
        gap++;
      }
    }
    expect(edge).toBeGreaterThan(0);
    expect(gap).toBeGreaterThan(0);
  });

  it('brings the field blitzer from the wide side of the field', () => {
    const plays = PASSES.filter((p) => p.tags.pressure === 'field');
    expect(plays.length).toBeGreaterThan(1);
    for (const play of plays) {
      const from = placeOf(play.sim, 'N', 0).across - play.sim.ballAcross;
      const crossing = trackOf(play.sim, 'N').find((at) => at.downfield < 0)!.across - play.sim.ballAcross;
      expect(Math.sign(from), play.name).toBe(-Math.sign(play.sim.ballAcross));
      expect(crossing * Math.sign(from), play.name).toBeGreaterThan(3.5);
    }
  });

  it('leaves nobody deep in a zero', () => {
    const plays = PASSES.filter((p) => p.tags.pressure === 'zero');
    expect(plays.length).toBeGreaterThan(1);
    for (const play of plays)
      expect(
        deep(play).map((d) => d.slot),
        play.name,
      ).toEqual([]);
  });
});

describe('the coverage in the sample film', () => {
  const of = (family: string) => PASSES.filter((p) => p.tags.coverage!.startsWith(family));
  const under = (play: Scrimmage, kind: Duty['kind']) => cover(play).filter((d) => d.duty.kind === kind);

  it.each(of('Cover 1'))('is one man deep in the middle and everyone else on his man: $name', (play) => {
    const free = deep(play).filter((d) => d.duty.kind !== 'man');
    expect(free.length).toBe(1);
    expect(Math.abs(free[0]!.across)).toBeLessThan(4);
    for (const { slot, duty } of cover(play)) {
      if (duty.kind !== 'man') continue;
      expect(
        distance(placeOf(play.sim, slot, lookTick(play)), placeOf(play.sim, duty.on, lookTick(play))),
        slot,
      ).toBeLessThan(6.5);
    }
  });

  it.each(of('Cover 2'))('is two halves deep and five under: $name', (play) => {
    const halves = deep(play);
    expect(halves.length).toBe(2);
    expect(halves[0]!.across).toBeLessThan(-6);
    expect(halves[1]!.across).toBeGreaterThan(6);
    expect(cover(play).length - 2).toBe(5);
    // the corners stay in the flats
    for (const d of under(play, 'flat')) expect(Math.abs(d.across)).toBeGreaterThan(11);
    expect(
      under(play, 'flat')
        .map((d) => d.slot)
        .sort(),
    ).toEqual(['CL', 'CR']);
  });

  it.each(of('Cover 3'))('is three thirds deep: $name', (play) => {
    const thirds = deep(play);
    expect(thirds.length).toBe(3);
    expect(thirds[0]!.across).toBeLessThan(-9);
    expect(Math.abs(thirds[1]!.across)).toBeLessThan(5);
    expect(thirds[2]!.across).toBeGreaterThan(9);
  });

  it.each(of('Cover 4'))('is four quarters deep and three under: $name', (play) => {
    const quarters = deep(play);
    expect(quarters.length).toBe(4);
    expect(quarters.map((d) => d.slot).sort()).toEqual(['CL', 'CR', 'FS', 'SS']);
    for (let i = 1; i < 4; i++) expect(quarters[i]!.across - quarters[i - 1]!.across).toBeGreaterThan(5);
  });

  /** The safety who comes down, and those on his side of the field. */
  const rotation = (play: Scrimmage) => {
    const down = cover(play).find((d) => (d.slot === 'SS' || d.slot === 'FS') && d.duty.kind !== 'third');
    const side = Math.sign(placeOf(play.sim, down?.slot ?? 'SS', 0).across);
    const there = cover(play).filter((d) => d.depth < 10.3 && d.across * side > 0);
    return { down, side, there: there.sort((a, b) => (b.across - a.across) * side) };
  };

  it.each(of('Cover 3 sky'))(
    'sky: a safety comes down and is the outermost man under, force and curl-flat: $name',
    (play) => {
      const { down, there } = rotation(play);
      expect(down!.depth).toBeLessThan(10.3);
      expect(placeOf(play.sim, down!.slot, 0).downfield).toBeGreaterThan(down!.depth - 4);
      expect(there[0]!.slot).toBe(down!.slot);
    },
  );

  it.each(of('Cover 3 buzz'))(
    'buzz: a safety comes down inside, and a linebacker is outside him: $name',
    (play) => {
      const { down, side } = rotation(play);
      expect(down!.depth).toBeLessThan(10.3);
      expect(Math.abs(down!.across)).toBeLessThan(11);
      const outside = cover(play).filter((d) => d.duty.kind === 'curl-flat' && d.across * side > 0)[0]!;
      expect(['W', 'N']).toContain(outside.slot);
      expect(outside.across * side).toBeGreaterThan(down!.across * side);
    },
  );

  it.each(of('Cover 3 cloud'))(
    'cloud: the corner has the flat, and the safety the third over him: $name',
    (play) => {
      const flat = under(play, 'flat')[0]!;
      expect(['CL', 'CR']).toContain(flat.slot);
      expect(flat.depth).toBeLessThan(9);
      const side = Math.sign(flat.across);
      const over = deep(play).find((d) => d.across * side > 9)!;
      expect(['SS', 'FS']).toContain(over.slot);
    },
  );
});

describe('the shell before the snap', () => {
  it('shows two high safeties or one, and rotates after the snap', () => {
    let rotated = 0;
    for (const play of [...PASSES, ...RUNS]) {
      if (play.tags.coverage === 'Cover 0') continue;
      const high = (['SS', 'FS'] as const).filter((slot) => placeOf(play.sim, slot, 0).downfield > 10).length;
      expect(high, play.name).toBe(play.call.defense.shell === 'one-high' ? 1 : 2);
      const one = play.tags.coverage === 'Cover 1' || play.tags.coverage!.startsWith('Cover 3');
      if (high === 2 && one) rotated++;
    }
    expect(rotated).toBeGreaterThan(5);
  });
});
