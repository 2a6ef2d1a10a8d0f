import type { PlayRecord } from '../play.ts';
import type { Teams } from '../situation/situation.ts';
import type { Follow, Step } from './between-plays.ts';
import type { Finding } from './finding.ts';
import { capital, playName } from './words.ts';

/** Doubled numbers, clocks that run backward, and names that are neither team's. */
export function auditOrder(plays: readonly PlayRecord[], teams: Teams): Finding[] {
  const findings: Finding[] = [];
  const numbers = new Set<number>();
  const names = [teams.home, teams.away].filter((name) => name !== undefined && name !== '');
  let before: PlayRecord | null = null;
  for (const play of plays) {
    const report = (code: string, fields: readonly string[], message: string, settle: string): void => {
      findings.push({ code, playId: play.playId, playNumber: play.playNumber, fields, message, settle });
    };
    if (play.playNumber !== null) {
      if (numbers.has(play.playNumber))
        report(
          'number-doubled',
          ['playNumber'],
          `Two plays have the number ${play.playNumber}.`,
          'Number one of them anew, or remove it if the play was logged twice.',
        );
      numbers.add(play.playNumber);
    }
    if (names.length === 2 && play.possession !== null && !names.includes(play.possession))
      report(
        'team-unknown',
        ['possession'],
        `${capital(playName(play))}: ${play.possession} is neither ${names[0]} nor ${names[1]}.`,
        'Choose one of the two teams.',
      );
    if (before && before.quarter !== null && play.quarter !== null) {
      if (play.quarter < before.quarter)
        report(
          'quarter-backward',
          ['quarter'],
          `${capital(playName(play))} is in quarter ${play.quarter}, but ${playName(before)} was already in quarter ${before.quarter}.`,
          'One of the two quarters is wrong, or the plays are out of order.',
        );
      else if (play.quarter > before.quarter + 1)
        report(
          'quarter-skipped',
          ['quarter'],
          `${capital(playName(play))} is in quarter ${play.quarter}, but ${playName(before)} was in quarter ${before.quarter}.`,
          'A quarter is missing, or one of the two is wrong.',
        );
      else if (
        play.quarter === before.quarter &&
        play.clock !== null &&
        before.clock !== null &&
        play.clock > before.clock
      )
        report(
          'clock-backward',
          ['clock'],
          `The clock of ${playName(play)} shows more time than that of ${playName(before)}.`,
          'One of the two clocks is wrong, or the plays are out of order.',
        );
    }
    before = play;
  }
  return findings;
}

/** Drives by their recorded numbers against the drives the plays themselves make. */
export function auditDrives(steps: readonly Step[], follows: readonly (Follow | null)[]): Finding[] {
  const findings: Finding[] = [];
  for (let i = 0; i + 1 < steps.length; i += 1) {
    const before = steps[i];
    const after = steps[i + 1];
    if (!before || !after || before.play.drive === null || after.play.drive === null) continue;
    if (after.play.playKind === 'kickoff' || after.play.playKind === 'try') continue;
    const prediction = follows[i]?.prediction;
    if (!prediction?.ok || prediction.situation.possession !== after.play.possession) continue;
    const numbers = { playId: after.play.playId, playNumber: after.play.playNumber, fields: ['drive'] };
    if (prediction.sameDrive && after.play.drive !== before.play.drive)
      findings.push({
        ...numbers,
        code: 'drive-without-end',
        message: `Drive ${before.play.drive} has no end: after ${playName(before.play)} ${before.play.possession} keeps the ball, but ${playName(after.play)} starts drive ${after.play.drive}.`,
        settle: 'The drive goes on, or the play that ended it is missing.',
        fix: { playId: after.play.playId, field: 'drive', value: before.play.drive },
      });
    if (
      !prediction.sameDrive &&
      prediction.situation.playKind === null &&
      after.play.drive === before.play.drive
    )
      findings.push({
        ...numbers,
        code: 'drive-not-ended',
        message: `Drive ${before.play.drive} ended with ${playName(before.play)}, but ${playName(after.play)} still counts to it.`,
        settle: 'A new drive begins here.',
        fix: { playId: after.play.playId, field: 'drive', value: before.play.drive + 1 },
      });
  }
  return findings;
}
