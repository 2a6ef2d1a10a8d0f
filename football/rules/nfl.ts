import { foul } from './fouls.ts';
import { type FoulRule, type Overtime, type Rules, ruled } from './types.ts';

/**
 * Professional rules. `R` numbers are rule-section-article of the league's book; values marked `data` were
 * confirmed on complete games in open play-by-play.
 */
export function nflRules(season: number): Rules {
  return {
    level: 'nfl',
    season,
    fieldWidthYards: ruled(160 / 3, 'R1-1, 160 feet; operations.nfl.com', 'read'),
    hashOffsetYards: ruled(9.25 / 3, 'R1-2, 70 ft 9 in from each sideline; operations.nfl.com', 'read'),
    goalPostWidthFeet: ruled(18.5, 'R1-3', 'read'),
    quarterSeconds: ruled(900, 'R4-1-1', 'read'),
    downs: ruled(4, 'R7-1-1', 'read'),
    lineToGainYards: ruled(10, 'R7-1-1', 'read'),
    kickoffOwnYardLine: ruled(season >= 2011 ? 35 : 30, 'R6-1-1', season >= 2011 ? 'read' : 'memory'),
    safetyKickOwnYardLine: ruled(20, 'R6-1-2', 'data'),
    kickoffTouchbackOwnYardLine: touchback(season),
    kickoffFairCatchInside: ruled(season === 2023 ? 25 : null, 'R10-2-4, only in 2023', 'memory'),
    kickoffOutOfBoundsYards: ruled(25, 'R6-2-3, the 40 for a kick from the 35', 'read'),
    touchbackOwnYardLine: ruled(20, 'R11-6', 'data'),
    missedFieldGoal: ruled('spotOfKick', 'R11-4-2', 'data'),
    tryKickYardsToGoal: ruled(season >= 2015 ? 15 : 2, 'R11-3-1', 'data'),
    tryTwoPointYardsToGoal: ruled(2, 'R11-3-1', 'data'),
    defenseScoresOnTry: ruled(season >= 2015, 'R11-3-2', 'read'),
    foulAfterFirstDown: ruled('afterLine', 'R14; one case in 2016', 'data'),
    overtime: ruled(overtime(season), 'R16-1', season >= 2025 ? 'read' : 'memory'),
    sackYardsBelongTo: ruled('teamPassing', 'statistics ids 14 to 20 of the official dictionary', 'read'),
    spikeIsAttempt: ruled(true, 'official box scores', 'data'),
    kneelIsRush: ruled(true, 'official box scores', 'data'),
    nullifiedPlayCounts: ruled(false, 'official box scores', 'data'),
    tryCountsInStatistics: ruled(false, 'official box scores', 'data'),
    fouls: FOULS,
  };
}

function touchback(season: number): Rules['kickoffTouchbackOwnYardLine'] {
  if (season >= 2025) return ruled(35, 'R6-2, as changed in April 2025; nfl.com', 'read');
  if (season === 2024) return ruled(30, 'R6-2, 2024; nfl.com', 'read');
  return season >= 2016 ? ruled(25, 'R11-6-3, 2016', 'data') : ruled(20, 'R11-6-3, before 2016', 'data');
}

function overtime(season: number): Overtime {
  return {
    kind: 'period',
    seriesYardsToGoal: null,
    twoPointFrom: null,
    triesOnlyFrom: null,
    periodSeconds: season >= 2017 ? 600 : 900,
    answer: season >= 2025 ? 'always' : season >= 2012 ? 'afterFieldGoal' : 'never',
  };
}

/** Every foul by the defense is a first down but the eight the league excepts (read in a published list). */
const AFD = { afd: true };
const LOD = { lod: true };
const LIST = 'published summary of penalties';

const FOULS: readonly FoulRule[] = [
  foul('offside', 'either', 5, 'live', 'snap', `R7-4; ${LIST}`, 'read'),
  foul('encroachment', 'either', 5, 'before', 'snap', `R7-4-3; ${LIST}`, 'read'),
  foul('neutral zone infraction', 'either', 5, 'before', 'snap', `R7-4-4; ${LIST}`, 'read'),
  foul('false start', 'offense', 5, 'before', 'snap', `R7-4-2; ${LIST}`, 'read'),
  foul('delay of game', 'either', 5, 'before', 'snap', `R4-6; ${LIST}`, 'read'),
  foul('illegal formation', 'either', 5, 'live', 'snap', `R7-5; ${LIST}`, 'read'),
  foul('illegal shift', 'offense', 5, 'live', 'snap', `R7-4-7; ${LIST}`, 'read'),
  foul('illegal motion', 'offense', 5, 'live', 'snap', `R7-4-8; ${LIST}`, 'read'),
  foul('illegal substitution', 'either', 5, 'live', 'snap', `R5-2; ${LIST}`, 'read'),
  foul('too many men', 'either', 5, 'live', 'snap', `R5-1; ${LIST}`, 'read'),
  foul('holding', 'offense', 10, 'live', 'depends', `R12-1-3; ${LIST}`, 'read'),
  foul('holding', 'defense', 5, 'live', 'snap', `R12-1-6; ${LIST}`, 'read', AFD),
  foul('defensive holding', 'defense', 5, 'live', 'snap', `R12-1-6; ${LIST}`, 'read', AFD),
  foul('illegal contact', 'defense', 5, 'live', 'snap', `R8-4; ${LIST}`, 'read', AFD),
  foul('illegal use of hands', 'offense', 10, 'live', 'depends', `R12-1-5; ${LIST}`, 'read'),
  foul('illegal use of hands', 'defense', 5, 'live', 'depends', `R12-1-7; ${LIST}`, 'data', AFD),
  foul('pass interference', 'defense', 'spot', 'live', 'snap', 'R8-5, the spot of the foul', 'read', AFD),
  foul('pass interference', 'offense', 10, 'live', 'snap', 'R8-5', 'read'),
  foul('illegal forward pass', 'offense', 5, 'live', 'depends', 'R8-1-2', 'memory', LOD),
  foul('intentional grounding', 'offense', 10, 'live', 'snap', 'R8-2, ten yards or the spot', 'data', LOD),
  foul('ineligible downfield', 'offense', 5, 'live', 'snap', 'R8-3', 'read'),
  foul('illegal touching', 'offense', 5, 'live', 'snap', 'R8-1-8', 'read'),
  foul('personal foul', 'offense', 15, 'either', 'depends', 'R12-2', 'read'),
  foul('personal foul', 'defense', 15, 'either', 'depends', 'R12-2', 'read', AFD),
  foul('unnecessary roughness', 'offense', 15, 'either', 'depends', 'R12-2-8', 'data'),
  foul('unnecessary roughness', 'defense', 15, 'either', 'depends', 'R12-2-8', 'data', AFD),
  foul('unsportsmanlike conduct', 'offense', 15, 'after', 'end', 'R12-3', 'data'),
  foul('unsportsmanlike conduct', 'defense', 15, 'after', 'end', 'R12-3', 'data', AFD),
  foul('taunting', 'offense', 15, 'after', 'end', 'R12-3-1', 'data'),
  foul('taunting', 'defense', 15, 'after', 'end', 'R12-3-1', 'data', AFD),
  foul('roughing the passer', 'defense', 15, 'live', 'depends', 'R12-2-11', 'data', AFD),
  foul('roughing the kicker', 'defense', 15, 'live', 'snap', 'R12-2-12', 'read', AFD),
  foul('running into the kicker', 'defense', 5, 'live', 'snap', 'R12-2-12', 'read'),
  foul('face mask', 'offense', 15, 'live', 'depends', 'R12-2-14', 'data'),
  foul('face mask', 'defense', 15, 'live', 'depends', 'R12-2-14', 'read', AFD),
  foul('horse collar', 'either', 15, 'live', 'depends', 'R12-2-15', 'data', AFD),
  foul('block in the back', 'either', 10, 'live', 'depends', 'R12-1-3', 'data'),
  foul('illegal block', 'offense', 15, 'live', 'depends', 'R12-2', 'data'),
  foul('illegal block', 'defense', 15, 'live', 'depends', 'R12-2', 'memory', AFD),
  foul('low block', 'either', 15, 'live', 'depends', 'R12-2-4', 'memory', AFD),
  foul('clipping', 'either', 15, 'live', 'depends', 'R12-2-1', 'memory', AFD),
  foul('chop block', 'either', 15, 'live', 'depends', 'R12-2-3', 'data', AFD),
  foul('tripping', 'offense', 10, 'live', 'depends', 'R12-1-8', 'memory'),
  foul('tripping', 'defense', 10, 'live', 'depends', 'R12-1-8', 'memory', AFD),
  foul('targeting', 'either', 15, 'live', 'depends', 'R12-2, lowering the head', 'memory', AFD),
  foul('leaping', 'defense', 15, 'live', 'snap', 'R12-3-1', 'data', AFD),
  foul('leverage', 'defense', 15, 'live', 'snap', 'R12-3-1', 'memory', AFD),
  foul('kick catch interference', 'either', 15, 'live', 'depends', 'R10-1', 'read'),
  foul('illegal touch of a kick', 'either', 5, 'live', 'depends', 'R6-2, R9-2', 'data'),
  foul('kickoff out of bounds', 'offense', 'spot', 'live', 'end', 'R6-2-3', 'read'),
  foul('illegal batting', 'either', 10, 'live', 'depends', 'R12-1-9', 'read'),
];
