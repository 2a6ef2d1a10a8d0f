import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import {
  type DefenseLine,
  type FumbleLine,
  type KickingLine,
  LineBook,
  type PassingLine,
  type PuntingLine,
  type ReceivingLine,
  type ReturnLine,
  type RushingLine,
  type TeamLine,
} from './lines.ts';

/** The game that a box score is made for. */
export interface BoxGame {
  /** the two names as `possession` writes them */
  readonly home: string;
  readonly away: string;
  /** the team of a player's label, where a roster knows it; needed only where the ball changed hands */
  readonly teamOf?: (player: string) => string | null;
}

/** Everything that is counted while the plays are read, one after another. */
export interface Book {
  readonly game: BoxGame;
  readonly rules: Rules;
  readonly teams: Readonly<Record<string, TeamLine>>;
  readonly passing: LineBook<PassingLine>;
  readonly rushing: LineBook<RushingLine>;
  readonly receiving: LineBook<ReceivingLine>;
  readonly defense: LineBook<DefenseLine>;
  readonly fumbles: LineBook<FumbleLine>;
  readonly kicking: LineBook<KickingLine>;
  readonly punting: LineBook<PuntingLine>;
  readonly kickReturns: LineBook<ReturnLine>;
  readonly puntReturns: LineBook<ReturnLine>;
}

export function newBook(game: BoxGame, rules: Rules): Book {
  const returns = { returns: 0, yards: 0, touchdowns: 0, longest: 0 };
  return {
    game,
    rules,
    teams: { [game.home]: newTeam(game.home), [game.away]: newTeam(game.away) },
    passing: new LineBook<PassingLine>({
      attempts: 0,
      completions: 0,
      yards: 0,
      touchdowns: 0,
      interceptions: 0,
      longest: 0,
      sacks: 0,
      sackYards: 0,
    }),
    rushing: new LineBook<RushingLine>({ attempts: 0, yards: 0, touchdowns: 0, longest: 0 }),
    receiving: new LineBook<ReceivingLine>({
      targets: 0,
      receptions: 0,
      yards: 0,
      touchdowns: 0,
      longest: 0,
      yardsAfterCatch: 0,
    }),
    defense: new LineBook<DefenseLine>({
      tackles: 0,
      assists: 0,
      kickTackles: 0,
      tacklesForLoss: 0,
      sacks: 0,
      sackYards: 0,
      interceptions: 0,
      interceptionYards: 0,
      interceptionTouchdowns: 0,
      passBreakups: 0,
      forcedFumbles: 0,
      fumblesRecovered: 0,
    }),
    fumbles: new LineBook<FumbleLine>({ fumbles: 0, lost: 0 }),
    kicking: new LineBook<KickingLine>({
      fieldGoalsMade: 0,
      fieldGoalAttempts: 0,
      longestFieldGoal: 0,
      tryKicksMade: 0,
      tryKickAttempts: 0,
      points: 0,
    }),
    punting: new LineBook<PuntingLine>({
      punts: 0,
      yards: 0,
      longest: 0,
      touchbacks: 0,
      insideTwenty: 0,
      blocked: 0,
    }),
    kickReturns: new LineBook<ReturnLine>(returns),
    puntReturns: new LineBook<ReturnLine>(returns),
  };
}

function newTeam(team: string): TeamLine {
  return {
    team,
    points: 0,
    calls: 0,
    totalYards: 0,
    rushes: 0,
    rushYards: 0,
    attempts: 0,
    completions: 0,
    passYards: 0,
    netPassYards: 0,
    sacks: 0,
    sackYards: 0,
    firstDowns: 0,
    firstDownsByPenalty: 0,
    thirdDowns: 0,
    thirdDownConversions: 0,
    fourthDowns: 0,
    fourthDownConversions: 0,
    interceptions: 0,
    fumbles: 0,
    fumblesLost: 0,
    turnovers: 0,
    penalties: 0,
    penaltyYards: 0,
    punts: 0,
    puntYards: 0,
  };
}

/** The other team of the game. */
export function opponent(game: BoxGame, team: string): string {
  return team === game.home ? game.away : game.home;
}

/** The label of a player among a play's tags; null where nobody is named. */
export function playerOf(play: PlayRecord, field: string): string | null {
  const label = play.tags[field];
  return typeof label === 'string' && label !== '' ? label : null;
}

/**
 * Whether the ball was with the team that did not put it in play when the play was over. `changed` is what the
 * kind of play says; a recorded `endPossession` wins.
 */
export function endedWithDefense(play: PlayRecord, changed: boolean): boolean {
  const ended = play.tags.endPossession;
  return ended === 'defense ball' || (ended !== 'offense ball' && changed);
}
