import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { auditGame } from '../../football/audit/audit.ts';
import { blankPlay, type PlayRecord } from '../../football/play.ts';
import { rulesFor } from '../../football/rules/index.ts';
import { decidedOnly, predictNext } from '../../football/situation/predict.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS } from '../../football/vocabulary/terms.ts';
import { sampleText } from '../../sample-clips/generator/data.ts';
import type { SamplePlay } from '../../sample-clips/sample-game.ts';
import { GAME, PLAYS } from './the-game.ts';

const FOLDER = join(import.meta.dirname, '../../sample-clips');
const RULES = rulesFor('ncaa', 2025);
const TEAMS = { home: 'Herons', away: 'Mariners' };

function recordOf(play: SamplePlay): PlayRecord {
  const blank = blankPlay(`play-${play.playNumber}`, 'game');
  const known = Object.fromEntries(
    Object.keys(blank)
      .filter((key) => key in play)
      .map((key) => [key, (play as unknown as Record<string, unknown>)[key]]),
  );
  return { ...blank, ...known };
}

const RECORDS = GAME.plays.map(recordOf);

describe('the sample game', () => {
  it('has at least 48 plays in at least 8 drives, with both teams on offense and most plays ours', () => {
    const downs = GAME.plays.filter((p) => p.playKind === 'pass' || p.playKind === 'run');
    const drives = new Set(GAME.plays.map((p) => p.drive).filter((d) => d !== null));
    const ours = downs.filter((p) => p.possession === 'Herons').length;
    expect(downs.length).toBeGreaterThanOrEqual(48);
    expect(drives.size).toBeGreaterThanOrEqual(8);
    expect(ours).toBeGreaterThan(downs.length / 2);
    expect(downs.length - ours).toBeGreaterThan(10);
  });

  it('splits its plays about evenly into two halves', () => {
    const first = GAME.plays.filter((p) => p.half === 1).length;
    expect(first / GAME.plays.length).toBeGreaterThan(0.4);
    expect(first / GAME.plays.length).toBeLessThan(0.6);
  });

  it('comes out of the generator exactly as the file beside it says', () => {
    const stored = readFileSync(join(FOLDER, 'sample-game.json'), 'utf8');
    expect(sampleText(GAME)).toBe(stored);
  });

  it('gives the game audit nothing to say', () => {
    expect(auditGame(RECORDS, RULES, TEAMS)).toEqual([]);
  });

  it('goes on from play to play as the situation engine says', () => {
    const misses: string[] = [];
    let followed = 0;
    RECORDS.forEach((record, i) => {
      const prediction = decidedOnly(predictNext(RECORDS.slice(0, i), RULES, TEAMS));
      if (!prediction.ok) return;
      const { situation } = prediction;
      // the toss decides who kicks off after the half, which the last play before it does not know
      if (record.quarter === 3 && RECORDS[i - 1]?.quarter === 2) return;
      followed++;
      for (const key of [
        'possession',
        'down',
        'distance',
        'yardsToGoal',
        'scoreFor',
        'scoreAgainst',
        'drive',
      ] as const)
        if (situation[key] !== record[key])
          misses.push(`play ${record.playNumber}: ${key} ${record[key]}, the engine says ${situation[key]}`);
    });
    expect(misses).toEqual([]);
    expect(followed).toBeGreaterThan(50);
  });

  it('runs its clock down within each quarter, never longer than the play and a forty-second play clock', () => {
    GAME.plays.forEach((play, i) => {
      const before = GAME.plays[i - 1];
      if (before?.quarter !== play.quarter) {
        expect(play.clock).toBe(GAME.game.quarterSeconds);
        // what is left of the quarter before runs out while nobody has to snap
        if (before) expect(before.clock).toBeLessThan(45);
        return;
      }
      const playSeconds = (before.clips[0]!.moments.whistle - before.clips[0]!.moments.snap) / 30;
      const gone = before.clock - play.clock;
      expect(gone, `before play ${play.playNumber}`).toBeGreaterThanOrEqual(0);
      expect(gone, `before play ${play.playNumber}`).toBeLessThanOrEqual(playSeconds + 41);
    });
  });

  it('writes every tag in the built-in vocabulary', () => {
    const known = new Set(BUILT_IN_TERMS.map((t) => `${t.field}:${t.name}`));
    const closed = BUILT_IN_FIELDS.filter((f) => f.kind === 'term' && f.key !== 'possession').map(
      (f) => f.key,
    );
    const strange = GAME.plays.flatMap((play) =>
      closed.flatMap((key) => {
        const value = (play as unknown as Record<string, unknown>)[key];
        return typeof value === 'string' && !known.has(`${key}:${value}`) ? [`${key}: ${value}`] : [];
      }),
    );
    expect(strange).toEqual([]);
    const rules = GAME.readRules.filter(
      (r) =>
        !known.has(`readKey:${r.when}`) ||
        !known.has(`route:${r.goTo}`) ||
        !known.has(`concept:${r.concept}`),
    );
    expect(rules).toEqual([]);
  });

  it('calls every concept, coverage and pressure of its playbook more than once', () => {
    const times = (key: 'concept' | 'coverage' | 'pressure', value: string) =>
      GAME.plays.filter((p) => p[key] === value).length;
    for (const concept of [
      'stick',
      'smash',
      'mesh',
      'four verticals',
      'snag',
      'curl-flat',
      'inside zone',
      'power',
      'counter',
    ])
      expect(times('concept', concept), concept).toBeGreaterThan(1);
    for (const coverage of [
      'Cover 0',
      'Cover 1',
      'Cover 2',
      'Cover 3 sky',
      'Cover 3 buzz',
      'Cover 3 cloud',
      'Cover 4',
    ])
      expect(times('coverage', coverage), coverage).toBeGreaterThan(1);
    for (const pressure of ['four-man rush', 'edge', 'field', 'A-gap', 'zero'])
      expect(times('pressure', pressure), pressure).toBeGreaterThan(1);
  });

  it('puts eleven different, legally numbered players on each side, all of them on the rosters', () => {
    const roster = new Set(GAME.roster.map((p) => `${p.team} ${p.number}`));
    expect(roster.size).toBe(GAME.roster.length);
    for (const { simulation, playNumber } of PLAYS) {
      for (const side of ['offense', 'defense'] as const) {
        const people = simulation.cast.filter((m) => m.side === side);
        expect(new Set(people.map((m) => m.number)).size, `play ${playNumber}, ${side}`).toBe(11);
        for (const m of people) expect(roster.has(`${m.team} ${m.number}`)).toBe(true);
      }
      const interior = simulation.cast.filter((m) => /^(LT|LG|C|RG|RT|LS)$/.test(m.position));
      for (const m of interior)
        expect(m.number >= 50 && m.number <= 79, `${m.position} ${m.number}`).toBe(true);
      const eligible = simulation.cast.filter((m) => /^(QB|RB|FB|WR|TE|K|P)$/.test(m.position));
      for (const m of eligible)
        expect(m.number < 50 || m.number > 79, `${m.position} ${m.number}`).toBe(true);
    }
  });

  it('names two films of each play whose snaps stand on different frames, and all of it is under 8 MB', () => {
    const files = new Set(readdirSync(FOLDER));
    for (const play of GAME.plays) {
      expect(play.clips.map((c) => c.angle)).toEqual(['sideline', 'endzone']);
      const [sideline, endzone] = play.clips;
      expect(sideline!.moments.snap).not.toBe(endzone!.moments.snap);
      for (const clip of play.clips) {
        expect(files.has(clip.file), clip.file).toBe(true);
        expect(clip.moments.whistle).toBeLessThan(clip.outFrame);
      }
    }
    const all = readdirSync(FOLDER, { recursive: true, withFileTypes: true }).filter((f) => f.isFile());
    const bytes = all.reduce((sum, f) => sum + statSync(join(f.parentPath, f.name)).size, 0);
    expect(bytes).toBeLessThan(8_000_000);
  });
});
