import { describe, expect, it } from 'vitest';
import type { OffenseSlot } from '../../sample-clips/generator/calls.ts';
import { shotAt } from '../../sample-clips/generator/simulation.ts';
import { LINE, PASSES, placeOf, RUNS, SCRIMMAGES, type Scrimmage, trackOf } from './the-game.ts';

/** The side a run is called to: where its track leads. */
function sideOf(play: Scrimmage): number {
  return Math.sign(play.told.run!.track.at(-1)!.across - play.sim.ballAcross);
}

/** Linemen who start on the back side (or at the ball) and cross it behind the line to the play side. */
function pullers(play: Scrimmage): OffenseSlot[] {
  const side = sideOf(play);
  return LINE.filter((slot) => {
    const track = trackOf(play.sim, slot, Math.min(55, play.sim.moments.whistle));
    const from = (track[0]!.across - play.sim.ballAcross) * side;
    return (
      from < -1 && track.some((at) => (at.across - play.sim.ballAcross) * side > 1.5 && at.downfield < 0.5)
    );
  });
}

describe('a run of the sample film', () => {
  it.each(RUNS)('gains what the tag says, where the carrier lies: $name', ({ sim, tags }) => {
    expect(tags.result).toBe('rush');
    const end = placeOf(sim, 'F', sim.moments.whistle).downfield;
    if (tags.touchdown) expect(end).toBeGreaterThanOrEqual(tags.yardsToGoal - 0.01);
    else expect(Math.abs(end - tags.gain!)).toBeLessThanOrEqual(0.5);
    const carrier = sim.cast.find((m) => m.slot === 'F')!;
    expect(tags.carrier).toEqual({ team: carrier.team, number: carrier.number });
  });

  it.each(RUNS)('is handed off behind the line: $name', ({ sim }) => {
    const ticks = Array.from({ length: sim.moments.whistle }, (_, t) => t);
    const handed = ticks.find((t) => shotAt(sim, t).ball.heldBy === 'F')!;
    expect(handed).toBeGreaterThan(8);
    expect(placeOf(sim, 'F', handed).downfield).toBeLessThan(-2);
    expect(shotAt(sim, handed - 1).ball.heldBy).toBe('QB');
  });

  it('pulls nobody on inside zone, one guard on power, a guard and a tackle on counter', () => {
    const seen = { 'inside zone': 0, power: 0, counter: 0 };
    for (const play of RUNS) {
      const concept = play.tags.concept as keyof typeof seen;
      seen[concept]++;
      const back = sideOf(play) === 1 ? ['LG', 'LT'] : ['RG', 'RT'];
      const expected = { 'inside zone': [], power: [back[0]], counter: back }[concept];
      expect(pullers(play).sort(), play.name).toEqual([...expected].sort());
    }
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(2);
  });

  it('starts counter with a step away from the run', () => {
    for (const play of RUNS.filter((p) => p.tags.concept === 'counter')) {
      const track = trackOf(play.sim, 'F', 30);
      const away = track.map((at) => (at.across - track[0]!.across) * sideOf(play));
      expect(Math.min(...away), play.name).toBeLessThan(-0.5);
    }
  });

  it('steps the whole line to the play side on inside zone', () => {
    for (const play of RUNS.filter((p) => p.tags.concept === 'inside zone')) {
      for (const slot of LINE) {
        const step = placeOf(play.sim, slot, 9).across - placeOf(play.sim, slot, 0).across;
        expect(step * sideOf(play), `${play.name}: ${slot}`).toBeGreaterThan(0.15);
      }
    }
  });

  it('has its first contact within reach of a tackler', () => {
    for (const { sim, tags, name } of SCRIMMAGES) {
      const { contact } = sim.moments;
      if (contact === undefined || tags.result === 'interception') continue;
      const holder = shotAt(sim, contact).ball.heldBy!;
      const at = placeOf(sim, holder, contact);
      const near = Math.min(
        ...sim.cast
          .filter((m) => m.side === 'defense')
          .map((m) =>
            Math.hypot(
              placeOf(sim, m.slot, contact).across - at.across,
              placeOf(sim, m.slot, contact).downfield - at.downfield,
            ),
          ),
      );
      expect(near, name).toBeLessThan(1.3);
    }
  });
});

describe('the protection in the sample film', () => {
  it('sets every lineman back from the line, and slides the way it is called', () => {
    let slid = 0;
    for (const play of PASSES) {
      for (const slot of LINE)
        expect(placeOf(play.sim, slot, 20).downfield, `${play.name}: ${slot}`).toBeLessThan(-0.7);
      if (play.tags.protection !== 'full slide' && play.tags.protection !== 'half slide') continue;
      const plan = play.told.protection!;
      const moved = plan.sliders.map(
        (slot) => (placeOf(play.sim, slot, 14).across - placeOf(play.sim, slot, 0).across) * plan.slide,
      );
      expect(moved.reduce((a, b) => a + b, 0) / moved.length, play.name).toBeGreaterThan(0.1);
      slid++;
    }
    expect(slid).toBeGreaterThan(8);
  });

  it('leaves no rusher without a blocker but where they are more than the protection', () => {
    for (const play of PASSES) {
      const blocked = new Set(play.told.protection!.jobs.values());
      const rushers = [...play.told.duties].filter(([, d]) => d.kind === 'rush').map(([slot]) => slot);
      const free = rushers.filter((slot) => !blocked.has(slot));
      expect(free.length, play.name).toBeLessThanOrEqual(Math.max(0, rushers.length - 5));
    }
  });
});
