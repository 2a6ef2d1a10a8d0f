import type { Angle, Framing } from './camera.ts';
import { LEAD_TICKS, type PlaySimulation, shotAt } from './simulation.ts';
import { clamp } from './space.ts';

interface Operator {
  /** yards of the middle of the picture beyond the line of scrimmage before the snap */
  readonly start: number;
  readonly widthYards: number;
  /** how far the ball may stray from the middle before the camera follows */
  readonly slackBehind: number;
  readonly slackAhead: number;
}

const OPERATORS: Readonly<Record<Angle, Operator>> = {
  sideline: { start: 6.5, widthYards: 41, slackBehind: 16, slackAhead: 9 },
  endzone: { start: 7, widthYards: 46, slackBehind: 18, slackAhead: 14 },
};

/** Seen from the far end zone, the deep men stand in front: the picture is kept on the line. */
const FROM_BEHIND_DEFENSE: Operator = { start: 3.5, widthYards: 43, slackBehind: 14, slackAhead: 18 };

/** A kick to be returned is filmed wide: from the kicker to the returner, with hardly a turn of the camera. */
const KICKOFF: Readonly<Record<Angle, Operator>> = {
  sideline: { start: 27, widthYards: 75, slackBehind: 46, slackAhead: 42 },
  endzone: { start: 24, widthYards: 54, slackBehind: 60, slackAhead: 60 },
};
const PUNT: Readonly<Record<Angle, Operator>> = {
  sideline: { start: 14, widthYards: 64, slackBehind: 40, slackAhead: 36 },
  endzone: { start: 10, widthYards: 52, slackBehind: 60, slackAhead: 60 },
};

function operatorFor(play: PlaySimulation, angle: Angle): Operator {
  const flies = play.outcome.kickYards !== null && play.moments.catch !== undefined;
  if (!flies)
    return angle === 'endzone' && play.place.yardsToGoal < 50 ? FROM_BEHIND_DEFENSE : OPERATORS[angle];
  return (play.cast.some((m) => m.position === 'P') ? PUNT : KICKOFF)[angle];
}

/**
 * How a camera operator frames the play: still until the ball strays, then turning slowly after it. Frames are whole
 * tenths of a yard, so that a camera at rest is at rest.
 */
export function framingOf(play: PlaySimulation, angle: Angle): (tick: number) => Framing {
  const operator = operatorFor(play, angle);
  const last = play.shots.at(-1)!.tick;
  const flies = play.assignments === null;
  const downfield: number[] = [];
  const across: number[] = [];
  let d = operator.start;
  let a = angle === 'sideline' ? 0 : play.ballAcross * 0.75;
  for (let tick = -LEAD_TICKS; tick <= last; tick++) {
    const ball = shotAt(play, tick).ball.at;
    if (tick > 0) {
      d = clamp(d, ball.downfield - operator.slackAhead, ball.downfield + operator.slackBehind);
      if (angle === 'endzone') a = clamp(a, ball.across - 17, ball.across + 17);
    }
    downfield.push(d);
    across.push(a);
  }
  const smoothD = smooth(downfield, flies ? 20 : 14);
  const smoothA = smooth(across, 14);
  const tenth = (value: number) => Math.round(value * 10) / 10;
  return (tick) => {
    const i = clamp(tick + LEAD_TICKS, 0, downfield.length - 1);
    return { downfield: tenth(smoothD[i]!), across: tenth(smoothA[i]!), widthYards: operator.widthYards };
  };
}

function smooth(values: readonly number[], reach: number): number[] {
  let current = values.slice();
  for (let pass = 0; pass < 2; pass++) {
    const sums = [0];
    for (const value of current) sums.push(sums.at(-1)! + value);
    current = current.map((_, i) => {
      const from = Math.max(0, i - reach);
      const to = Math.min(values.length - 1, i + reach);
      return (sums[to + 1]! - sums[from]!) / (to - from + 1);
    });
  }
  return current;
}
