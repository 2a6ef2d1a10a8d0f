import { HALF_WIDTH_YARDS } from './field.ts';
import { spot } from './space.ts';
import { isEngaged, type Mind } from './world.ts';

/** Picks, each tick, the way with the best sum of ground gained and room. `forwards` -1 runs a ball back. */
export function carrying(forwards: 1 | -1): Mind {
  return (world, me) => {
    const heading = Math.atan2(me.velocity.across, me.velocity.downfield * forwards);
    let best = { score: -Infinity, angle: 0 };
    for (let degrees = -80; degrees <= 80; degrees += 8) {
      const angle = (degrees * Math.PI) / 180;
      const way = spot(Math.sin(angle), Math.cos(angle) * forwards);
      let score = Math.cos(angle) * 1.6 - Math.abs(angle - heading) * 0.25;
      for (const other of world.people.values()) {
        if (other.side === me.side || other.slot === me.slot) continue;
        const ahead = spot(
          other.at.across + other.velocity.across * 0.25 - me.at.across,
          other.at.downfield + other.velocity.downfield * 0.25 - me.at.downfield,
        );
        const along = ahead.across * way.across + ahead.downfield * way.downfield;
        if (along < -0.3 || along > 9) continue;
        const off = Math.abs(ahead.across * way.downfield - ahead.downfield * way.across);
        const blocked = isEngaged(world, other);
        score -= (blocked ? 0.9 : 1.5) * Math.exp(-((off / (blocked ? 0.8 : 1.6)) ** 2)) * (1.1 - along / 9);
      }
      const edge = HALF_WIDTH_YARDS - Math.abs(me.at.across + way.across * 3);
      if (edge < 2) score -= (2 - edge) * 1.2;
      if (score > best.score) best = { score, angle };
    }
    const to = spot(
      me.at.across + Math.sin(best.angle) * 4,
      me.at.downfield + Math.cos(best.angle) * 4 * forwards,
    );
    return { kind: 'run', to, speed: me.topSpeed * 0.94 };
  };
}
