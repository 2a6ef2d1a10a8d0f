import { inOrder } from '../../football/drives/drives.ts';
import type { PlayRecord } from '../../football/play.ts';
import type { Rules } from '../../football/rules/index.ts';
import { decidedOnly, type Prediction, predictNext, type Teams } from '../../football/situation/predict.ts';

export interface Pair {
  readonly before: PlayRecord;
  readonly after: PlayRecord;
  readonly prediction: Prediction;
  /** the teams choose what comes next: where a try is snapped, who kicks off a half */
  readonly chosen: boolean;
  /** fields whose prediction differs from the record; empty for a hit or where nothing was predicted */
  readonly wrong: readonly string[];
}

const FIELDS = ['possession', 'down', 'distance', 'yardsToGoal'] as const;

/** Every pair of consecutive plays of a game, with what the engine predicts of the second from the first. */
export function followGame(game: readonly PlayRecord[], rules: Rules, teams: Teams): Pair[] {
  const plays = inOrder(game);
  const pairs: Pair[] = [];
  for (let i = 0; i + 1 < plays.length; i += 1) {
    const before = plays[i]!;
    const after = plays[i + 1]!;
    const prediction = predictNext(plays.slice(0, i + 1), rules, teams);
    const wrong = prediction.ok ? FIELDS.filter((key) => prediction.situation[key] !== after[key]) : [];
    const chosen = prediction.ok && !decidedOnly(prediction).ok;
    pairs.push({ before, after, prediction, chosen, wrong });
  }
  return pairs;
}

/** One line of a report about a pair. */
export function pairLine({ before, after, prediction }: Pair): string {
  const at = (play: PlayRecord): string =>
    `Q${play.quarter} ${play.possession} ${play.down ?? '-'}&${play.distance ?? '-'} at ${play.yardsToGoal} ${play.playKind}`;
  const said = prediction.ok
    ? `${prediction.situation.possession} ${prediction.situation.down ?? '-'}&${prediction.situation.distance ?? '-'} at ${prediction.situation.yardsToGoal} ${prediction.situation.playKind ?? ''}`
    : `${prediction.code}`;
  return `${before.playId} ${at(before)} | ${before.note ?? ''} | predicted ${said} | recorded ${at(after)}`;
}
