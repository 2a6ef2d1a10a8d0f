/** The lines of a box score. Yards are whole or half yards as logged; every player line names its team. */

interface PlayerOfTeam {
  readonly team: string;
  /** the player's label as tagged; `Team` where the play counts but nobody is named */
  readonly player: string;
}

export interface PassingLine extends PlayerOfTeam {
  attempts: number;
  completions: number;
  yards: number;
  touchdowns: number;
  interceptions: number;
  longest: number;
  sacks: number;
  /** yards lost by sacks, positive */
  sackYards: number;
}

export interface RushingLine extends PlayerOfTeam {
  attempts: number;
  yards: number;
  touchdowns: number;
  longest: number;
}

export interface ReceivingLine extends PlayerOfTeam {
  targets: number;
  receptions: number;
  yards: number;
  touchdowns: number;
  longest: number;
  yardsAfterCatch: number;
}

export interface DefenseLine extends PlayerOfTeam {
  /** on plays from scrimmage, alone or as the first of those who shared it */
  tackles: number;
  assists: number;
  /** tackles and assists on kicks, which official boxes keep apart */
  kickTackles: number;
  tacklesForLoss: number;
  sacks: number;
  sackYards: number;
  interceptions: number;
  interceptionYards: number;
  interceptionTouchdowns: number;
  passBreakups: number;
  forcedFumbles: number;
  fumblesRecovered: number;
}

export interface FumbleLine extends PlayerOfTeam {
  fumbles: number;
  lost: number;
}

export interface KickingLine extends PlayerOfTeam {
  fieldGoalsMade: number;
  fieldGoalAttempts: number;
  longestFieldGoal: number;
  tryKicksMade: number;
  tryKickAttempts: number;
  points: number;
}

export interface PuntingLine extends PlayerOfTeam {
  /** without those blocked, which the team's line counts too */
  punts: number;
  yards: number;
  longest: number;
  touchbacks: number;
  /** the return, or the ball where there was none, ended inside the other team's 20 */
  insideTwenty: number;
  blocked: number;
}

export interface ReturnLine extends PlayerOfTeam {
  returns: number;
  yards: number;
  touchdowns: number;
  longest: number;
}

export interface PlayerLines {
  readonly passing: PassingLine[];
  readonly rushing: RushingLine[];
  readonly receiving: ReceivingLine[];
  readonly defense: DefenseLine[];
  readonly fumbles: FumbleLine[];
  readonly kicking: KickingLine[];
  readonly punting: PuntingLine[];
  readonly kickReturns: ReturnLine[];
  readonly puntReturns: ReturnLine[];
}

export interface TeamLine {
  readonly team: string;
  points: number;
  calls: number;
  totalYards: number;
  rushes: number;
  /** with the yards of sacks where the level charges them to rushing */
  rushYards: number;
  attempts: number;
  completions: number;
  /** gains of completions */
  passYards: number;
  /** less the yards of sacks where the level charges them to the team's passing */
  netPassYards: number;
  sacks: number;
  sackYards: number;
  firstDowns: number;
  firstDownsByPenalty: number;
  thirdDowns: number;
  thirdDownConversions: number;
  fourthDowns: number;
  fourthDownConversions: number;
  interceptions: number;
  fumbles: number;
  fumblesLost: number;
  turnovers: number;
  penalties: number;
  penaltyYards: number;
  punts: number;
  puntYards: number;
}

/** Puts a gain into a line whose `longest` may be a loss when it is the only one. */
export function takeLongest(line: { longest: number }, yards: number, isFirst: boolean): void {
  line.longest = isFirst ? yards : Math.max(line.longest, yards);
}

export const NOBODY = 'Team';

/** Lines of one kind by team and player, made when first asked for. */
export class LineBook<L extends PlayerOfTeam> {
  private readonly lines = new Map<string, Map<string, L>>();
  private readonly blank: Omit<L, keyof PlayerOfTeam>;

  constructor(blank: Omit<L, keyof PlayerOfTeam>) {
    this.blank = blank;
  }

  of(team: string, player: string | null): L {
    const name = player ?? NOBODY;
    let ofTeam = this.lines.get(team);
    if (!ofTeam) {
      ofTeam = new Map();
      this.lines.set(team, ofTeam);
    }
    let line = ofTeam.get(name);
    if (!line) {
      line = { team, player: name, ...this.blank } as L;
      ofTeam.set(name, line);
    }
    return line;
  }

  all(): L[] {
    return [...this.lines.values()].flatMap((ofTeam) => [...ofTeam.values()]);
  }
}
