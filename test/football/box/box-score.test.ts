import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boxScore } from '../../../football/box/box-score.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { type GamecenterGame, labelOf, type OfficialSide, readGames } from './gamecenter.ts';

const FOLDER = '../shared/data/nfl-gamecenter';
const present = existsSync(FOLDER);

interface Compared {
  readonly kind: string;
  readonly where: string;
  readonly official: readonly unknown[];
  readonly ours: readonly unknown[];
}

type Numbers = Readonly<Record<string, number>>;

/** Every official line of a game beside ours. */
function compare(game: GamecenterGame): Compared[] {
  const { home, away } = game;
  const box = boxScore(game.plays, { home: home.abbr, away: away.abbr, teamOf: game.teamOf }, 'nfl');
  const lines: Compared[] = [];
  for (const [side, team] of [
    [home, box.teams.home],
    [away, box.teams.away],
  ] as const) {
    const put = (kind: string, who: string, official: readonly unknown[], ours: readonly unknown[]) =>
      lines.push({ kind, where: `${game.gameId} ${side.abbr} ${who}`, official, ours });
    const t = side.stats.team as Numbers;
    put('score', 'team', [side.score.T], [team.points]);
    put('team', 'first downs', [t.totfd], [team.firstDowns]);
    put('team', 'yards', [t.totyds, t.pyds, t.ryds], [team.totalYards, team.netPassYards, team.rushYards]);
    put('team', 'penalties', [t.pen, t.penyds], [team.penalties, team.penaltyYards]);
    const { given } = game;
    const downs = (made: number, failed: number) => [
      given(side.abbr, made),
      given(side.abbr, made) + given(side.abbr, failed),
    ];
    put('team', 'third downs', downs(6, 7), [team.thirdDownConversions, team.thirdDowns]);
    put('team', 'fourth downs', downs(8, 9), [team.fourthDownConversions, team.fourthDowns]);
    put('team', 'turnovers', [t.trnovr], [team.turnovers]);
    put('team', 'punts', [t.pt, t.ptyds], [team.punts, team.puntYards]);
    players(
      side,
      'passing',
      box.players.passing,
      put,
      (l) => [l.att, l.cmp, l.yds, l.tds, l.ints],
      (o) => [o.attempts, o.completions, o.yards, o.touchdowns, o.interceptions],
    );
    players(
      side,
      'rushing',
      box.players.rushing,
      put,
      (l) => [l.att, l.yds, l.tds, l.lng],
      (o) => [o.attempts, o.yards, o.touchdowns, o.longest],
    );
    players(
      side,
      'receiving',
      box.players.receiving,
      put,
      (l) => [l.rec, l.yds, l.tds, l.lng],
      (o) => [o.receptions, o.yards, o.touchdowns, o.longest],
    );
    players(
      side,
      'kicking',
      box.players.kicking,
      put,
      (l) => [l.fgm, l.fga, l.xpmade, l.xpa],
      (o) => [o.fieldGoalsMade, o.fieldGoalAttempts, o.tryKicksMade, o.tryKickAttempts],
    );
    players(
      side,
      'punting',
      box.players.punting,
      put,
      (l) => [l.pts, l.yds, l.i20, l.lng],
      (o) => [o.punts, o.yards, o.insideTwenty, o.longest],
    );
    players(
      side,
      'kickret',
      box.players.kickReturns,
      put,
      (l) => [l.ret, l.tds, l.lng, l.avg],
      (o) => [o.returns, o.touchdowns, o.longest, Math.trunc(o.yards / o.returns)],
    );
    players(
      side,
      'puntret',
      box.players.puntReturns,
      put,
      (l) => [l.ret, l.tds, l.lng, l.avg],
      (o) => [o.returns, o.touchdowns, o.longest, Math.trunc(o.yards / o.returns)],
    );
    players(
      side,
      'defense',
      box.players.defense,
      put,
      (l) => [l.tkl, l.ast, l.sk, l.int, l.ffum],
      (o) => [o.tackles, o.assists, o.sacks, o.interceptions, o.forcedFumbles],
    );
    players(
      side,
      'fumbles',
      box.players.fumbles,
      put,
      (l) => (l.tot ? [l.tot, l.lost] : null),
      (o) => [o.fumbles, o.lost],
    );
  }
  return lines;
}

function players<L extends { team: string; player: string }>(
  side: OfficialSide,
  kind: string,
  ours: readonly L[],
  put: (kind: string, who: string, official: readonly unknown[], ours: readonly unknown[]) => void,
  official: (line: Numbers) => readonly unknown[] | null,
  own: (line: L) => readonly unknown[],
): void {
  for (const [id, line] of Object.entries(side.stats[kind] ?? {})) {
    const label = labelOf(String(line.name), id);
    const told = official(line as Numbers);
    if (told === null) continue;
    const mine = ours.find((l) => l.team === side.abbr && l.player === label);
    put(kind, label, told, mine ? own(mine) : []);
  }
}

describe.skipIf(!present)(
  'box scores of sixteen professional games (skipped where ../shared/data is absent)',
  () => {
    const games = present ? readGames(FOLDER) : [];
    const lines = games.flatMap(compare);
    const different = lines.filter((l) => JSON.stringify(l.official) !== JSON.stringify(l.ours));

    it('equal the official lines in at least 98.5 % of them', () => {
      expect(games).toHaveLength(16);
      expect(lines.length).toBeGreaterThan(1100);
      expect(1 - different.length / lines.length).toBeGreaterThanOrEqual(0.985);
    });

    it('differ only by tries that the record leaves out: after a return or a defensive touchdown', () => {
      expect(new Set(different.map((l) => l.kind))).toEqual(new Set(['score', 'kicking']));
      const missing = games.flatMap((game) =>
        touchdownsWithoutTry(game).map((team) => `${game.gameId} ${team}`),
      );
      const keyOf = (l: Compared) => l.where.split(' ').slice(0, 2).join(' ');
      for (const kind of ['score', 'kicking'])
        expect(
          different
            .filter((l) => l.kind === kind)
            .map(keyOf)
            .sort(),
        ).toEqual([...missing].sort());
      for (const { kind, official, ours } of different) {
        const [a, b] = [official as number[], ours as number[]];
        if (kind === 'score') expect(a[0]! - b[0]!).toBe(1);
        else expect(a.map((n, i) => n - b[i]!)).toEqual([0, 0, 1, 1]);
      }
    });
  },
);

/** Teams whose touchdown was followed by a good kick, says the summary, that is not among the plays. */
function touchdownsWithoutTry(game: GamecenterGame): string[] {
  return game.plays.flatMap((play, i) => {
    if (!game.scoring[play.playId]?.desc.includes('kick is good')) return [];
    const followers = game.plays.slice(i + 1, i + 4);
    const next = followers.find((p) => p.playKind === 'try' || p.playKind === 'kickoff');
    if (!next || next.playKind === 'try') return [];
    const other = play.possession === game.home.abbr ? game.away.abbr : game.home.abbr;
    return [play.tags.endPossession === 'defense ball' ? other : (play.possession as string)];
  });
}

describe('the level’s own way of counting', () => {
  const GAME = { home: 'Harlow Ridge Herons', away: 'Port Ansel Mariners' };
  const play = (number: number, given: Partial<PlayRecord>): PlayRecord => ({
    ...blankPlay(`p${number}`, 'g'),
    playNumber: number,
    quarter: 1,
    possession: GAME.home,
    ...given,
  });
  const plays = [
    play(1, {
      down: 1,
      distance: 10,
      yardsToGoal: 75,
      playKind: 'pass',
      result: 'complete',
      gain: 12,
      airYards: 7,
      tags: { passer: '8 Ortiz', target: '84 Lund', tackler: '24 Pace' },
    }),
    play(2, {
      down: 1,
      distance: 10,
      yardsToGoal: 63,
      playKind: 'pass',
      result: 'sack',
      gain: -8,
      tags: { passer: '8 Ortiz', assist: '91 Boyd', assist2: '55 Cole' },
    }),
    play(3, {
      down: 2,
      distance: 18,
      yardsToGoal: 71,
      playKind: 'run',
      result: 'rush',
      gain: 5,
      tags: { carrier: '22 Reyes', tackler: '55 Cole', assist: '24 Pace' },
    }),
    play(4, {
      down: 3,
      distance: 13,
      yardsToGoal: 66,
      playKind: 'pass',
      result: 'interception',
      returnYards: 9,
      turnover: true,
      tags: { passer: '8 Ortiz', interceptor: '24 Pace', target: '84 Lund' },
    }),
    play(5, {
      possession: GAME.away,
      down: 1,
      distance: 10,
      yardsToGoal: 40,
      playKind: 'pass',
      result: 'scramble',
      gain: 40,
      touchdown: true,
      tags: { passer: '12 Hale' },
    }),
    play(6, {
      possession: GAME.away,
      yardsToGoal: 3,
      playKind: 'try',
      result: 'good',
      tags: { kicker: '3 Moss', tryKind: 'kick try' },
    }),
  ];

  it('charges a college sack to the passer’s rushing, a professional one to the team’s passing', () => {
    const college = boxScore(plays, GAME, 'ncaa');
    expect(college.teams.home).toMatchObject({
      rushes: 2,
      rushYards: -3,
      attempts: 2,
      netPassYards: 12,
      totalYards: 9,
    });
    expect(college.players.rushing.find((l) => l.player === '8 Ortiz')).toMatchObject({
      attempts: 1,
      yards: -8,
    });
    const professional = boxScore(plays, GAME, 'nfl');
    expect(professional.teams.home).toMatchObject({
      rushes: 1,
      rushYards: 5,
      attempts: 2,
      netPassYards: 4,
      totalYards: 9,
    });
    expect(professional.players.passing.find((l) => l.player === '8 Ortiz')).toMatchObject({
      yards: 12,
      sacks: 1,
      sackYards: 8,
    });
  });

  it('splits a shared sack, counts tackles and assists, and credits the interceptor', () => {
    const { defense } = boxScore(plays, GAME, 'ncaa').players;
    const line = (player: string) => defense.find((l) => l.player === player);
    expect(line('91 Boyd')).toMatchObject({
      team: GAME.away,
      sacks: 0.5,
      sackYards: 4,
      tackles: 0,
      assists: 1,
      tacklesForLoss: 0.5,
    });
    expect(line('55 Cole')).toMatchObject({ sacks: 0.5, tackles: 1, assists: 1 });
    expect(line('24 Pace')).toMatchObject({ tackles: 1, assists: 1, interceptions: 1, interceptionYards: 9 });
  });

  it('tells the scores in words and in order, and adds them up', () => {
    const box = boxScore(plays, GAME, 'ncaa');
    expect(box.scoring.map((s) => [s.what, s.points, s.homeScore, s.awayScore])).toEqual([
      ['12 Hale 40-yard run', 6, 0, 6],
      ['3 Moss kick', 1, 0, 7],
    ]);
    expect(box.teams.away.points).toBe(7);
    expect(box.drives.map((d) => [d.team, d.calls, d.yards, d.points, d.end])).toEqual([
      [GAME.home, 4, 9, 0, 'interception'],
      [GAME.away, 1, 40, 7, 'touchdown'],
    ]);
  });
});
