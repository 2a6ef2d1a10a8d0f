import { describe, expect, it } from 'vitest';
import { readDescription } from '../../../football/open-names/description.ts';
import { type OpenRow, openGames, recordsOf } from '../../../football/open-names/nflverse.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import { predictNext } from '../../../football/situation/predict.ts';

/** Invented rows of an invented game, in the columns and the grammar of the open dictionary. */
const ROW: OpenRow = {
  game_id: 'g1',
  season: '2025',
  home_team: 'HRH',
  away_team: 'PAM',
  qtr: '1',
  time: '10:00',
};
const snap = (more: OpenRow): OpenRow => ({
  ...ROW,
  posteam: 'HRH',
  down: '1',
  ydstogo: '10',
  yardline_100: '60',
  ...more,
});
const kick = (more: OpenRow): OpenRow => ({
  ...ROW,
  posteam: 'HRH',
  yardline_100: '35',
  play_type: 'kickoff',
  ...more,
});

function read(...rows: OpenRow[]) {
  const [game] = openGames(rows.map((row, i) => ({ play_id: String(i + 1), ...row })));
  return { game: game!, plays: recordsOf(game!) };
}

function nextOf(row: OpenRow): string {
  const { plays } = read(
    kick({ touchback: '1', desc: 'A.Orr kicks 65 yards from PAM 35 to end zone, Touchback.' }),
    row,
  );
  const p = predictNext(plays, rulesFor('nfl', 2025), { home: 'HRH', away: 'PAM' });
  return p.ok
    ? `${p.situation.possession} ${p.situation.down ?? p.situation.playKind}&${p.situation.distance ?? '-'} at ${p.situation.yardsToGoal}`
    : p.code;
}

describe('Open play-by-play', () => {
  it('turns a kickoff to the side that kicks, where the dictionary gives the one that receives', () => {
    const { plays } = read(kick({ kick_distance: '65', touchback: '1' }));
    expect(plays[0]).toMatchObject({
      possession: 'PAM',
      yardsToGoal: 65,
      playKind: 'kickoff',
      result: 'touchback',
      drive: null,
    });
  });

  it('reads a pass with its parts and its people', () => {
    const { plays } = read(
      snap({
        play_type: 'pass',
        complete_pass: '1',
        yards_gained: '11',
        air_yards: '5',
        yards_after_catch: '6',
        first_down_pass: '1',
        first_down_rush: '0',
        passer_player_name: 'A.Vale',
        receiver_player_name: 'I.Novak',
      }),
    );
    expect(plays[0]).toMatchObject({
      playKind: 'pass',
      result: 'complete',
      gain: 11,
      airYards: 5,
      yardsAfterCatch: 6,
      firstDown: true,
    });
    expect(plays[0]?.tags).toMatchObject({ passer: 'A.Vale', target: 'I.Novak' });
  });

  it('leaves out timeouts and warnings, and keeps that a quarter was over', () => {
    const { game, plays } = read(
      snap({ play_type: 'run', yards_gained: '3', desc: 'B.Ames left end to HRH 43 for 3 yards.' }),
      { ...ROW, play_type: 'no_play', desc: 'Timeout #1 by PAM at 09:58.' },
      { ...ROW, play_type: 'NA', desc: 'END QUARTER 1' },
    );
    expect(game.skipped.map((s) => s.reason)).toEqual(['timeout', 'end of a quarter']);
    expect(plays).toHaveLength(1);
    expect(plays[0]?.tags.timeExpired).toBe(1);
  });

  it('says what no column says, and makes nothing up', () => {
    const { game, plays } = read(snap({ play_type: 'pass', interception: '1', yards_gained: '0' }));
    expect(game.unsaid).toContainEqual({
      row: 0,
      field: 'endYardsToGoal',
      reason: 'No column says where the ball was dead.',
    });
    expect(plays[0]?.tags.endYardsToGoal).toBeUndefined();
  });

  it.each([
    [
      'a fumble lost',
      {
        play_type: 'run',
        yards_gained: '4',
        fumble: '1',
        fumble_lost: '1',
        desc: 'B.Ames up the middle to HRH 44 for 4 yards (L.Pike). FUMBLES (L.Pike), RECOVERED by PAM-R.Shaw at HRH 41. R.Shaw to HRH 38 for 3 yards (A.Vale).',
      },
      'PAM 1&10 at 38',
    ],
    [
      'a fumble kept',
      {
        play_type: 'run',
        yards_gained: '4',
        fumble: '1',
        desc: 'B.Ames up the middle to HRH 44 for 4 yards. FUMBLES, and recovers at HRH 42.',
      },
      'HRH 2&8 at 58',
    ],
    [
      'an interception brought back',
      {
        play_type: 'pass',
        interception: '1',
        desc: 'A.Vale pass deep left intended for I.Novak INTERCEPTED by R.Shaw at PAM 30. R.Shaw pushed ob at PAM 45 for 15 yards (I.Novak).',
      },
      'PAM 1&10 at 55',
    ],
    [
      'holding that undid the play',
      {
        play_type: 'no_play',
        penalty: '1',
        desc: 'B.Ames left end to PAM 40 for 20 yards. PENALTY on HRH-71-T.Reyes, Offensive Holding, 10 yards, enforced at HRH 40 - No Play.',
      },
      'HRH 1&20 at 70',
    ],
    [
      'holding downfield',
      {
        play_type: 'run',
        yards_gained: '6',
        desc: 'B.Ames left end to PAM 42 for 18 yards. PENALTY on HRH-T.Reyes, Offensive Holding, 10 yards, enforced at HRH 46.',
      },
      'HRH 1&14 at 64',
    ],
    [
      'a declined penalty',
      {
        play_type: 'run',
        yards_gained: '6',
        desc: 'B.Ames left end to HRH 46 for 6 yards. Penalty on PAM-L.Pike, Defensive Holding, declined.',
      },
      'HRH 2&4 at 54',
    ],
    [
      'grounding, which the dictionary calls no play',
      {
        play_type: 'no_play',
        pass_attempt: '1',
        incomplete_pass: '1',
        penalty: '1',
        desc: 'A.Vale pass incomplete short left. PENALTY on HRH-A.Vale, Intentional Grounding, 10 yards, enforced at HRH 40.',
      },
      'HRH 2&20 at 70',
    ],
    [
      'a ruling that was reversed',
      {
        play_type: 'pass',
        complete_pass: '1',
        yards_gained: '12',
        desc: 'A.Vale pass incomplete short right. Harlow Ridge challenged the incomplete pass ruling, and the play was REVERSED. A.Vale pass short right to I.Novak to PAM 48 for 12 yards.',
      },
      'HRH 1&10 at 48',
    ],
    [
      'a muffed punt that the punting team recovers',
      {
        down: '4',
        play_type: 'punt',
        kick_distance: '40',
        desc: 'C.Dunn punts 40 yards to PAM 20, Center-O.Beck. R.Shaw MUFFS catch, RECOVERED by HRH-J.Frey at PAM 22. J.Frey to PAM 22 for no gain.',
      },
      'HRH 1&10 at 22',
    ],
    [
      'a punt with holding on the return',
      {
        down: '4',
        play_type: 'punt',
        kick_distance: '40',
        return_yards: '9',
        desc: 'C.Dunn punts 40 yards to PAM 20, Center-O.Beck. R.Shaw to PAM 29 for 9 yards (J.Frey). PENALTY on PAM-L.Pike, Offensive Holding, 10 yards, enforced at PAM 24.',
      },
      'PAM 1&10 at 86',
    ],
    [
      'a missed field goal run back',
      {
        down: '4',
        yardline_100: '44',
        play_type: 'field_goal',
        field_goal_result: 'missed',
        kick_distance: '62',
        desc: 'C.Dunn 62 yard field goal is No Good, Short, Center-O.Beck, Holder-A.Vale. R.Shaw to PAM 25 for 29 yards (J.Frey).',
      },
      'PAM 1&10 at 75',
    ],
    [
      'a kickoff touchback put at a spot of its own',
      {
        posteam: 'PAM',
        down: 'NA',
        yardline_100: '35',
        play_type: 'kickoff',
        touchback: '1',
        desc: 'C.Dunn kicks 58 yards from HRH 35 to end zone, Touchback to the PAM 20.',
      },
      'PAM 1&10 at 80',
    ],
    [
      'a kickoff short of the landing zone',
      {
        posteam: 'PAM',
        down: 'NA',
        yardline_100: '35',
        play_type: 'kickoff',
        desc: 'C.Dunn kicks 38 yards from HRH 35 to PAM 27, short of landing zone.',
      },
      'PAM 1&10 at 60',
    ],
    [
      'an onside kick that the kicking team recovers',
      {
        posteam: 'PAM',
        down: 'NA',
        yardline_100: '35',
        play_type: 'kickoff',
        kick_distance: '11',
        desc: 'C.Dunn kicks onside 11 yards from HRH 35 to HRH 46. RECOVERED by HRH-J.Frey at HRH 46.',
      },
      'HRH 1&10 at 54',
    ],
    [
      'two points',
      {
        down: 'NA',
        ydstogo: '0',
        yardline_100: '2',
        play_type: 'pass',
        pass_attempt: '1',
        two_point_attempt: '1',
        two_point_conv_result: 'success',
        desc: 'TWO-POINT CONVERSION ATTEMPT. A.Vale pass to I.Novak is complete. ATTEMPT SUCCEEDS. PENALTY on PAM-L.Pike, Defensive Offside, 5 yards, enforced between downs.',
      },
      'HRH kickoff&- at 60',
    ],
  ] as const)('leads from %s to the next situation', (_name, row, expected) => {
    expect(nextOf(snap(row))).toBe(expected);
  });

  it('finds every penalty in a sentence', () => {
    const { penalties, noPlay } = readDescription(
      'A.Vale pass incomplete. Penalty on HRH-T.Reyes, Offensive Holding, offsetting, enforced at HRH 40 - No Play. Penalty on PAM-L.Pike, Illegal Contact, offsetting.',
    );
    expect(noPlay).toBe(true);
    expect(penalties.map((p) => [p.team, p.foul, p.ruling])).toEqual([
      ['HRH', 'Offensive Holding', 'offset'],
      ['PAM', 'Illegal Contact', 'offset'],
    ]);
  });
});
