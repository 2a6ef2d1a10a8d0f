import { foul } from './fouls.ts';
import { type FoulRule, type Rules, ruled } from './types.ts';

/** High school rules; states may adopt their own overtime and quarter length. */
export function nfhsRules(season: number): Rules {
  return {
    level: 'nfhs',
    season,
    fieldWidthYards: ruled(160 / 3, '1-2-1', 'read'),
    hashOffsetYards: ruled(80 / 9, '1-2-3, 53 ft 4 in from each sideline', 'read'),
    goalPostWidthFeet: ruled(70 / 3, '1-2-5, 23 ft 4 in', 'read'),
    quarterSeconds: ruled(720, '3-1-1', 'read'),
    downs: ruled(4, '5-1-1', 'read'),
    lineToGainYards: ruled(10, '5-1-2', 'read'),
    kickoffOwnYardLine: ruled(40, '6-1-1', 'read'),
    safetyKickOwnYardLine: ruled(20, '6-1-1', 'read'),
    kickoffTouchbackOwnYardLine: ruled(20, '8-5-3', 'read'),
    kickoffFairCatchInside: ruled(null, '6-5', 'memory'),
    kickoffOutOfBoundsYards: ruled(25, '6-1-9, the 35 for a kick from the 40', 'memory'),
    touchbackOwnYardLine: ruled(20, '8-5-3, any kick is dead at the goal line', 'read'),
    missedFieldGoal: ruled('whereDead', '6-3 and 8-4-2, a missed kick is as a punt', 'memory'),
    tryKickYardsToGoal: ruled(3, '8-3-1', 'memory'),
    tryTwoPointYardsToGoal: ruled(3, '8-3-1', 'memory'),
    defenseScoresOnTry: ruled(false, '8-3-3', 'read'),
    overtime: ruled(
      {
        kind: 'series',
        seriesYardsToGoal: 10,
        twoPointFrom: null,
        triesOnlyFrom: null,
        periodSeconds: null,
        answer: 'always',
      },
      'resolving tied games, a state’s option; secondary source',
      'read',
    ),
    sackYardsBelongTo: ruled('rushing', 'statisticians’ manual, sec. 2', 'read'),
    spikeIsAttempt: ruled(true, 'statisticians’ manual', 'memory'),
    kneelIsRush: ruled(true, 'statisticians’ manual', 'memory'),
    nullifiedPlayCounts: ruled(false, 'statisticians’ manual', 'memory'),
    tryCountsInStatistics: ruled(false, 'statisticians’ manual', 'memory'),
    fouls: FOULS,
  };
}

const AFD = { afd: true };
const LOD = { lod: true };
const BASICS = 'table of penalties';

const FOULS: readonly FoulRule[] = [
  foul('offside', 'either', 5, 'before', 'snap', `7-1-6, dead at once; ${BASICS}`, 'memory'),
  foul('encroachment', 'either', 5, 'before', 'snap', `7-1-6; ${BASICS}`, 'memory'),
  foul('false start', 'offense', 5, 'before', 'snap', `7-1-7; ${BASICS}`, 'memory'),
  foul('delay of game', 'either', 5, 'before', 'snap', `3-6-2; ${BASICS}`, 'memory'),
  foul('illegal formation', 'either', 5, 'live', 'snap', `7-2-5; ${BASICS}`, 'memory'),
  foul('illegal shift', 'offense', 5, 'live', 'snap', `7-2-6; ${BASICS}`, 'memory'),
  foul('illegal motion', 'offense', 5, 'live', 'snap', `7-2-7; ${BASICS}`, 'memory'),
  foul('illegal substitution', 'either', 5, 'before', 'snap', `3-7; ${BASICS}`, 'memory'),
  foul('holding', 'offense', 10, 'live', 'depends', `9-2-1; ${BASICS}`, 'memory'),
  foul('holding', 'defense', 10, 'live', 'depends', '9-2-3, no first down', 'read'),
  foul('defensive holding', 'defense', 10, 'live', 'depends', '9-2-3, no first down', 'read'),
  foul('illegal use of hands', 'either', 10, 'live', 'depends', '9-2-1', 'memory'),
  foul('pass interference', 'defense', 15, 'live', 'snap', '7-5-10, no first down', 'read'),
  foul('pass interference', 'offense', 15, 'live', 'snap', '7-5-10, no loss of down', 'memory'),
  foul('illegal forward pass', 'offense', 5, 'live', 'depends', '7-5-2', 'memory', LOD),
  foul('intentional grounding', 'offense', 5, 'live', 'depends', '7-5-2, from the spot', 'memory', LOD),
  foul('ineligible downfield', 'offense', 5, 'live', 'snap', '7-5-12, no loss of down', 'memory'),
  foul('illegal touching', 'offense', 5, 'live', 'depends', '7-5-13', 'memory', LOD),
  foul('personal foul', 'either', 15, 'either', 'depends', '9-4, no first down but for roughing', 'read'),
  foul('unnecessary roughness', 'either', 15, 'either', 'depends', '9-4', 'memory'),
  foul('unsportsmanlike conduct', 'either', 15, 'after', 'end', '9-5', 'memory'),
  foul('taunting', 'either', 15, 'after', 'end', '9-5-1', 'memory'),
  foul('roughing the passer', 'defense', 15, 'live', 'depends', '9-4-4', 'read', AFD),
  foul('roughing the kicker', 'defense', 15, 'live', 'snap', '9-4-5', 'read', AFD),
  foul('roughing the snapper', 'defense', 15, 'live', 'snap', '9-4-6', 'read', AFD),
  foul('running into the kicker', 'defense', 5, 'live', 'snap', '9-4-5', 'memory'),
  foul('face mask', 'either', 15, 'live', 'depends', '9-4-3', 'memory'),
  foul('horse collar', 'either', 15, 'live', 'depends', '9-4-3', 'memory'),
  foul('block in the back', 'either', 10, 'live', 'depends', '9-3-5', 'memory'),
  foul('illegal block', 'either', 15, 'live', 'depends', '9-3-2', 'memory'),
  foul('low block', 'either', 15, 'live', 'depends', '9-3-2', 'memory'),
  foul('clipping', 'either', 15, 'live', 'depends', '9-3-5', 'memory'),
  foul('chop block', 'either', 15, 'live', 'depends', '9-3-6', 'memory'),
  foul('tripping', 'either', 15, 'live', 'depends', '9-4-3', 'memory'),
  foul('targeting', 'either', 15, 'live', 'depends', '9-4-3', 'memory'),
  foul('kick catch interference', 'either', 15, 'live', 'depends', '6-5-6', 'memory'),
  foul('kickoff out of bounds', 'offense', 'spot', 'live', 'end', '6-1-9', 'memory'),
  foul('illegal batting', 'either', 15, 'live', 'depends', '9-7', 'memory'),
];
