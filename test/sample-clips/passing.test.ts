import { describe, expect, it } from 'vitest';
import type { OffenseSlot, RouteName } from '../../sample-clips/generator/calls.ts';
import { READ_RULES } from '../../sample-clips/generator/concepts.ts';
import { shotAt } from '../../sample-clips/generator/simulation.ts';
import { distance, PASSES, placeOf, type Scrimmage, slotWearing, trackOf } from './the-game.ts';

const COMPLETE = PASSES.filter((p) => p.tags.result === 'complete');
const THROWN = PASSES.filter((p) => p.sim.moments.release !== undefined);

function targetOf(play: Scrimmage): OffenseSlot {
  return slotWearing(play.sim, play.tags.target!.number, 'offense') as OffenseSlot;
}

describe('a pass of the sample film', () => {
  it.each(THROWN)('leaves the passer’s hand at the release and not before: $name', ({ sim }) => {
    const release = sim.moments.release!;
    expect(shotAt(sim, release).ball.heldBy).toBe('QB');
    const after = shotAt(sim, release + 2).ball;
    expect(after.heldBy).toBeNull();
    expect(distance(after.at, placeOf(sim, 'QB', release))).toBeGreaterThan(0.4);
    expect(after.height).toBeGreaterThan(1.8);
  });

  it.each(COMPLETE)(
    'meets its target on the frame of the catch, at the depth of its air yards: $name',
    (play) => {
      const { sim, tags } = play;
      const target = targetOf(play);
      const caught = sim.moments.catch!;
      const before = shotAt(sim, caught - 1).ball;
      expect(before.heldBy).toBeNull();
      expect(shotAt(sim, caught).ball.heldBy).toBe(target);
      const at = placeOf(sim, target, caught);
      expect(distance(before.at, at)).toBeLessThan(1.4);
      expect(before.height).toBeGreaterThan(0.8);
      expect(before.height).toBeLessThan(2.6);
      // behind the goal line, air yards end at it
      expect(Math.abs(Math.min(at.downfield, tags.yardsToGoal) - tags.airYards!)).toBeLessThanOrEqual(0.5);
      expect(tags.yardsAfterCatch).toBe(tags.gain! - tags.airYards!);
    },
  );

  it.each(PASSES.filter((p) => p.tags.result === 'incomplete'))(
    'that is incomplete is held by nobody: $name',
    ({ sim, tags }) => {
      const { release, whistle } = sim.moments;
      for (let tick = release! + 1; tick <= whistle; tick++) expect(shotAt(sim, tick).ball.heldBy).toBeNull();
      expect(shotAt(sim, whistle).ball.height).toBeLessThan(0.5);
      expect(tags.gain).toBe(0);
      expect(tags.yardsAfterCatch).toBeNull();
    },
  );

  it.each(PASSES.filter((p) => p.tags.result === 'interception'))(
    'that is intercepted ends in a defender’s hands: $name',
    ({ sim, tags }) => {
      const holder = shotAt(sim, sim.moments.catch!).ball.heldBy!;
      expect(sim.cast.find((m) => m.slot === holder)?.side).toBe('defense');
      const from = placeOf(sim, holder, sim.moments.catch!).downfield;
      const end = placeOf(sim, holder, sim.moments.whistle).downfield;
      expect(Math.abs(from - end - tags.returnYards!)).toBeLessThanOrEqual(1);
      expect(tags.turnover).toBe(true);
    },
  );

  it.each(PASSES.filter((p) => p.tags.result === 'sack'))(
    'that ends in a sack is never thrown: $name',
    ({ sim, tags }) => {
      expect(sim.moments.release).toBeUndefined();
      expect(placeOf(sim, 'QB', sim.moments.whistle).downfield).toBeCloseTo(tags.gain!, 0);
      const contact = sim.moments.contact!;
      const nearest = Math.min(
        ...sim.cast
          .filter((m) => m.side === 'defense')
          .map((m) => distance(placeOf(sim, m.slot, contact), placeOf(sim, 'QB', contact))),
      );
      expect(nearest).toBeLessThan(1.3);
    },
  );

  it('goes where the read rule says, but for the plays that the script makes a mistake', () => {
    const stands: Partial<Record<RouteName, readonly string[]>> = { flat: ['flat', 'swing', 'arrow'] };
    let read = 0;
    for (const { call, sim, tags, name } of THROWN) {
      if (!sim.read || call.fortune.throwTo || call.fortune.hold) continue;
      const rule = READ_RULES.find((r) => r.concept === tags.concept && r.when === tags.readKey);
      expect(rule, `${name}: no rule for ${tags.readKey}`).toBeDefined();
      expect(stands[rule!.goTo] ?? [rule!.goTo], name).toContain(tags.route);
      read++;
    }
    expect(read).toBeGreaterThan(20);
  });

  it('reads its key from what that defender did', () => {
    for (const { sim, tags, told, name } of PASSES) {
      if (!sim.read) continue;
      const { keySlot, tick } = sim.read;
      const from = placeOf(sim, keySlot, 0);
      const now = placeOf(sim, keySlot, tick);
      const back = now.downfield - from.downfield;
      const side = Math.abs(now.across - from.across);
      if (tags.readKey === 'drops') expect(back, name).toBeGreaterThan(2);
      if (tags.readKey === 'expands') expect(side, name).toBeGreaterThan(1.3);
      if (tags.readKey === 'squats') expect(back, name).toBeLessThan(2.5);
      if (tags.readKey === 'blitzes') expect(told.duties.get(keySlot)?.kind, name).toBe('rush');
    }
  });
});

/** Depths at which a coach looks for the break, yards; common practice, no source. */
const BREAKS: Partial<Record<RouteName, number>> = {
  stick: 5.5,
  hitch: 6,
  corner: 11,
  post: 12,
  in: 12,
  curl: 12,
  slant: 3,
};

describe('a route of the sample film', () => {
  const seen = new Map<string, number>();
  const count = (route: string) => seen.set(route, (seen.get(route) ?? 0) + 1);

  it('breaks within half a yard of the depth that its name says', () => {
    for (const play of PASSES) {
      for (const [slot, route] of play.told.routes) {
        const depth = BREAKS[route.name];
        if (depth === undefined) continue;
        const end = play.sim.moments.catch ?? play.sim.moments.release ?? play.sim.moments.whistle;
        const track = trackOf(play.sim, slot, end);
        const stem = track[0]!.across;
        const turned = track.findIndex((at) => Math.abs(at.across - stem) > 0.12);
        if (turned < 0) continue;
        const deepest = Math.max(...track.slice(0, turned + 1).map((at) => at.downfield));
        expect(
          Math.abs(deepest - depth),
          `${play.name}: ${slot} ${route.name} at ${deepest.toFixed(2)}`,
        ).toBeLessThanOrEqual(0.5);
        count(route.name);
      }
    }
    for (const name of Object.keys(BREAKS))
      if (name !== 'post' && name !== 'slant') expect(seen.get(name) ?? 0, name).toBeGreaterThan(1);
  });

  it('comes back from a curl or a hitch, and sits', () => {
    for (const play of COMPLETE) {
      if (play.tags.route !== 'curl' && play.tags.route !== 'hitch') continue;
      const track = trackOf(play.sim, targetOf(play), play.sim.moments.catch);
      const deepest = Math.max(...track.map((at) => at.downfield));
      expect(deepest - track.at(-1)!.downfield, play.name).toBeGreaterThan(0.7);
    }
  });

  it('crosses the ball at five or six yards in mesh, one crosser right over the other', () => {
    for (const play of PASSES.filter((p) => p.tags.concept === 'mesh')) {
      const crossers = [...play.told.routes].filter(([, r]) => r.name === 'shallow').map(([slot]) => slot);
      expect(crossers.length, play.name).toBe(2);
      const ball = play.sim.ballAcross;
      const depths = crossers.flatMap((slot) => {
        const track = trackOf(play.sim, slot, play.sim.moments.catch ?? play.sim.moments.whistle);
        const side = Math.sign(track[0]!.across - ball);
        const at = track.find((s) => (s.across - ball) * side <= 0);
        return at ? [at.downfield] : [];
      });
      for (const depth of depths) {
        expect(depth, play.name).toBeGreaterThanOrEqual(4.5);
        expect(depth, play.name).toBeLessThanOrEqual(6.5);
      }
      if (depths.length === 2) expect(Math.abs(depths[0]! - depths[1]!), play.name).toBeLessThanOrEqual(1.2);
      if (depths.length > 0) count('shallow');
    }
    expect(seen.get('shallow')).toBeGreaterThan(3);
  });

  it('holds the landmark of a vertical: just outside the hash, or five yards from the sideline', () => {
    let held = 0;
    for (const play of PASSES.filter((p) => p.tags.concept === 'four verticals')) {
      for (const [slot, route] of play.told.routes) {
        if (route.name !== 'seam' && route.name !== 'go') continue;
        const end =
          play.sim.moments.catch ??
          play.sim.moments.release ??
          play.sim.moments.contact ??
          play.sim.moments.whistle;
        const far = trackOf(play.sim, slot, end).find((at) => at.downfield >= 13);
        if (!far) continue;
        // NCAA rule 1-2-1: hash marks 60 feet, that is 20 yards, from each sideline
        const landmark = route.name === 'seam' ? 160 / 6 - 20 + 1 : 160 / 6 - 5;
        expect(Math.abs(Math.abs(far.across) - landmark), `${play.name}: ${slot}`).toBeLessThanOrEqual(0.6);
        held++;
      }
    }
    expect(held).toBeGreaterThan(8);
  });

  it('stays in the flat under five yards, and goes outside', () => {
    for (const play of PASSES) {
      for (const [slot, route] of play.told.routes) {
        if (route.name !== 'flat' && route.name !== 'swing') continue;
        const track = trackOf(play.sim, slot, play.sim.moments.catch ?? play.sim.moments.whistle);
        const wide = track.find((at) => Math.abs(at.across - track[0]!.across) > 6);
        if (wide) expect(wide.downfield, `${play.name}: ${slot}`).toBeLessThan(5);
      }
    }
  });
});
