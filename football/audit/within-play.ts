import type { PlayRecord } from '../play.ts';
import { foulRule } from '../rules/fouls.ts';
import type { Rules } from '../rules/index.ts';
import { type PlayEffect, settledPlay } from '../situation/play-effect.ts';
import type { Finding, Fix } from './finding.ts';
import { capital, playName } from './words.ts';

/** Gaps of the engine that are contradictions, not things still to be logged. */
const CONTRADICTIONS: Readonly<Record<string, readonly string[]>> = {
  'spot-off-field': ['yardsToGoal'],
  'gain-contradicts': ['result', 'gain'],
  'score-contradicts': ['touchdown'],
  'touchback-contradicts': ['result'],
  'touchback-missing': ['kickYards', 'result'],
  'touchdown-missing': ['gain', 'touchdown'],
  'safety-missing': ['gain', 'safety'],
  'penalty-beyond-half': ['penaltyYards'],
  'penalty-off-field': ['penaltyYards'],
  'penalty-yards-negative': ['penaltyYards'],
};

type Report = (code: string, fields: readonly string[], message: string, settle: string, fix?: Fix) => void;

/** What contradicts itself within one play, without looking at any other. */
export function auditPlay(
  play: PlayRecord,
  rules: Rules,
  effect: PlayEffect = settledPlay(play, rules),
): Finding[] {
  const findings: Finding[] = [];
  const report: Report = (code, fields, message, settle, fix) =>
    findings.push({
      code,
      playId: play.playId,
      playNumber: play.playNumber,
      fields,
      message: `${capital(playName(play))}: ${message}`,
      settle,
      ...(fix ? { fix } : {}),
    });
  situationOf(play, rules, report);
  yardsOf(play, report);
  flagsOf(play, effect, report);
  foulOf(effect, rules, report);
  if (!effect.ok) {
    const { code, reason, field } = effect.gap;
    const fields = CONTRADICTIONS[code];
    const known = findings.some((finding) => fields?.some((key) => finding.fields.includes(key)));
    if (fields && !known)
      report(
        code,
        field ? [field, ...fields.filter((f) => f !== field)] : fields,
        reason,
        'The film of the play settles it.',
      );
  }
  return findings;
}

function situationOf(play: PlayRecord, rules: Rules, report: Report): void {
  const { down, distance, yardsToGoal, quarter, clock } = play;
  if (down !== null && (!Number.isInteger(down) || down < 1 || down > rules.downs.value))
    report('down-impossible', ['down'], `there is no down ${down}.`, 'Type the down from the film.');
  if (yardsToGoal !== null && (yardsToGoal < 1 || yardsToGoal > 99))
    report(
      'spot-impossible',
      ['yardsToGoal'],
      'the ball is not on the field of play.',
      'Type the spot from the film.',
    );
  if (distance !== null && yardsToGoal !== null && distance > yardsToGoal)
    report(
      'distance-impossible',
      ['distance', 'yardsToGoal'],
      `${distance} yards to go reach past the goal line, which is ${yardsToGoal} away.`,
      'Type the distance, or the spot, from the film.',
      { playId: play.playId, field: 'distance', value: yardsToGoal },
    );
  if (distance !== null && distance < 1)
    report(
      'distance-impossible',
      ['distance'],
      'at least one yard is always left to go.',
      'Type the distance from the film.',
    );
  if (quarter !== null && quarter >= 1 && clock !== null && clock > rules.quarterSeconds.value)
    report(
      'clock-impossible',
      ['clock'],
      'the clock shows more than a quarter.',
      'Type the clock from the film.',
    );
}

function yardsOf(play: PlayRecord, report: Report): void {
  const { result, gain, playKind: kind, airYards, yardsAfterCatch } = play;
  if (gain === null) return;
  const set = (value: number): Fix => ({ playId: play.playId, field: 'gain', value });
  const penalised = play.penaltyOutcome === 'accepted';
  const loose =
    play.fumble !== null || play.tags.lateral !== undefined || play.tags.endYardsToGoal !== undefined;
  if ((result === 'incomplete' || result === 'throwaway') && gain !== 0)
    report(
      'result-contradicts-gain',
      ['result', 'gain'],
      `an incomplete pass gains nothing, but the gain is ${gain}.`,
      'Either the pass was caught, or the gain is 0.',
      set(0),
    );
  if (result === 'sack' && gain > 0)
    report(
      'result-contradicts-gain',
      ['result', 'gain'],
      `a sack loses yards, but the gain is ${gain}.`,
      'Either it was a scramble, or the sign is wrong.',
      set(-gain),
    );
  if (kind === 'kneel' && gain > 0)
    report(
      'result-contradicts-gain',
      ['gain'],
      `a kneel gains nothing, but the gain is ${gain}.`,
      'The sign of the gain is wrong.',
      set(-gain),
    );
  if (result === 'complete' && airYards !== null && yardsAfterCatch !== null && !loose && !penalised) {
    const sum = airYards + yardsAfterCatch;
    if (sum !== gain)
      report(
        'parts-contradict-gain',
        ['gain', 'airYards', 'yardsAfterCatch'],
        `${airYards} yards through the air and ${yardsAfterCatch} after the catch make ${sum}, but the gain is ${gain}.`,
        'One of the three is wrong.',
        set(sum),
      );
  }
  if (play.yardsToGoal === null || loose || result === 'interception' || kind === 'try') return;
  if (gain > play.yardsToGoal)
    report(
      'gain-impossible',
      ['gain', 'yardsToGoal'],
      `a gain of ${gain} goes past the goal line, which is ${play.yardsToGoal} away.`,
      'The gain, or the spot, is wrong.',
    );
  else if (play.touchdown && !penalised && gain < play.yardsToGoal && (kind === 'run' || kind === 'pass'))
    report(
      'touchdown-contradicts-gain',
      ['touchdown', 'gain'],
      `a touchdown from ${play.yardsToGoal} yards out gains ${play.yardsToGoal}, but the gain is ${gain}.`,
      'Either it was no touchdown, or the gain or the spot is wrong.',
      set(play.yardsToGoal),
    );
}

function flagsOf(play: PlayRecord, effect: PlayEffect, report: Report): void {
  const { distance, down } = play;
  const scrimmage = play.playKind === 'run' || play.playKind === 'pass' || play.playKind === 'kneel';
  const lost = play.result === 'interception' || play.fumble === 'lost';
  if (scrimmage && play.turnover === false && lost && play.tags.endPossession !== 'offense ball')
    report(
      'turnover-missing',
      ['turnover', 'result'],
      play.result === 'interception'
        ? 'an interception is a turnover.'
        : 'a fumble that is lost is a turnover.',
      'Either the ball was kept, or it is a turnover.',
      { playId: play.playId, field: 'turnover', value: true },
    );
  if (scrimmage && play.turnover === true && play.result !== 'interception' && play.fumble === null)
    report(
      'turnover-contradicts',
      ['turnover', 'fumble'],
      'a turnover needs an interception or a fumble.',
      'Log the fumble or the interception, or take the turnover away.',
    );
  if (
    !scrimmage ||
    down === null ||
    distance === null ||
    !effect.ok ||
    lost ||
    effect.recorded.fumble !== null
  )
    return;
  const { ending, seriesAt } = effect.settled;
  if (ending.what !== 'spot' && ending.what !== 'touchdown') return;
  if (ending.what === 'touchdown' && ending.by === 'defense') return;
  const made =
    ending.what === 'touchdown' ||
    effect.settled.down === 'first' ||
    effect.settled.firstAfter ||
    seriesAt <= (play.yardsToGoal ?? 0) - distance;
  const penalised = effect.recorded.flags.some((flag) => flag.ruling !== 'declined');
  if (made && play.firstDown === false && !penalised)
    report(
      'first-down-missing',
      ['firstDown', 'gain'],
      `a gain of ${play.gain ?? 0} on ${distance} to go is a first down, but it is not marked as one.`,
      'Either it is a first down, or the gain or the distance is wrong.',
      { playId: play.playId, field: 'firstDown', value: true },
    );
  if (!made && play.firstDown === true && !penalised)
    report(
      'first-down-contradicts',
      ['firstDown', 'gain'],
      `a gain of ${play.gain ?? 0} on ${distance} to go makes no first down, but it is marked as one.`,
      'Either it is no first down, or the gain or the distance is wrong.',
      { playId: play.playId, field: 'firstDown', value: false },
    );
}

/** Some fouls only one side can commit. */
function foulOf({ recorded }: PlayEffect, rules: Rules, report: Report): void {
  for (const { foul, by } of recorded.flags) {
    if (foul === null || by === null || foulRule(rules, foul, by) !== null) continue;
    const other = by === 'offense' ? 'defense' : 'offense';
    if (foulRule(rules, foul, other) === null) continue;
    report(
      'foul-side',
      ['penaltyOn', 'penalty'],
      `${foul} is a foul of the ${other}, not of the ${by}.`,
      'Either the foul or the side is wrong.',
    );
  }
}
