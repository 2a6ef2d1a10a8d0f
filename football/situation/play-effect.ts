import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { type Ending, endingOf } from './ending.ts';
import { type Gap, isGap } from './gap.ts';
import { type Recorded, recordedOf } from './record.ts';
import { type Settled, settle } from './settle.ts';

export interface Points {
  /** of the team that put the ball in play */
  readonly offense: number;
  readonly defense: number;
}

/** What a play did, penalties included, as far as its own record tells. */
export type PlayEffect =
  | { readonly ok: true; readonly recorded: Recorded; readonly settled: Settled; readonly points: Points }
  | { readonly ok: false; readonly recorded: Recorded; readonly gap: Gap };

/** Reads a play without looking at any other. Never throws: what cannot be known is a gap with its reason. */
export function settledPlay(play: PlayRecord, rules: Rules): PlayEffect {
  const recorded = recordedOf(play);
  const ending = endingOf(play, recorded, rules);
  if (isGap(ending)) return { ok: false, recorded, gap: ending };
  const settled = settle(play, recorded, ending, rules);
  if (isGap(settled)) return { ok: false, recorded, gap: settled };
  return { ok: true, recorded, settled, points: pointsOf(settled.ending) };
}

function pointsOf(ending: Ending): Points {
  switch (ending.what) {
    case 'touchdown':
      return ending.by === 'offense' ? { offense: 6, defense: 0 } : { offense: 0, defense: 6 };
    case 'safety':
      return ending.on === 'offense' ? { offense: 0, defense: 2 } : { offense: 2, defense: 0 };
    case 'fieldGoal':
      return { offense: 3, defense: 0 };
    case 'try':
      return { offense: ending.offensePoints, defense: ending.defensePoints };
    default:
      return { offense: 0, defense: 0 };
  }
}
