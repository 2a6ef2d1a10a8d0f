import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setReadRule, vocabularyView } from '../../../electron/service/actions/playbook.ts';
import { reads } from '../../../electron/service/actions/reads.ts';
import { callsNow, tells, tendencies } from '../../../electron/service/actions/tendencies.ts';
import { makeSampleLibrary } from '../../../electron/service/sample/make-sample.ts';
import { openStation, type Station } from '../../../electron/service/station.ts';
import { problemOf } from '../../support/station.ts';

/**
 * The first half of the sample game, graded by hand from its tags and the read rules of its playbook:
 * play number, concept, what the key did, route thrown. Plays 18 (sack) and 33 (throwaway) are no throws.
 */
const BY_HAND: readonly (readonly [number, string, string, string, 'right' | 'wrong'])[] = [
  [3, 'stick', 'expands', 'stick', 'right'],
  [4, 'smash', 'squats', 'corner', 'right'],
  [6, 'mesh', 'expands', 'shallow', 'right'],
  [7, 'curl-flat', 'drops', 'flat', 'right'],
  [9, 'snag', 'blitzes', 'snag', 'right'],
  [11, 'stick', 'squats', 'flat', 'right'],
  [12, 'smash', 'drops', 'hitch', 'right'],
  [17, 'curl-flat', 'expands', 'curl', 'right'],
  [20, 'four verticals', 'widens', 'seam', 'right'],
  [22, 'snag', 'expands', 'snag', 'right'],
  [23, 'mesh', 'blitzes', 'shallow', 'right'],
  [25, 'smash', 'drops', 'hitch', 'right'],
  [26, 'stick', 'drops', 'flat', 'right'],
  [29, 'stick', 'drops', 'flat', 'right'],
  [31, 'smash', 'drops', 'hitch', 'right'],
  [32, 'curl-flat', 'squats', 'curl', 'right'],
];

let folder: string;
let station: Station;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-reads-'));
  const path = join(folder, 'sample.tapebook');
  await makeSampleLibrary(path, join(process.cwd(), 'sample-clips'));
  station = openStation(path, { person: 'coach' });
}, 120_000);

afterAll(async () => {
  await station.close();
  rmSync(folder, { recursive: true, force: true });
});

const everyThrow = () => reads(station, { team: '', where: '' });
const numberOf = (playId: string) => station.columns().valueOf(playId, 'playNumber');

describe('the throws of the sample library', () => {
  it('are graded as by hand', () => {
    const keyed = everyThrow().throws.filter((t) => t.readKey !== null);
    expect(keyed.map((t) => [numberOf(t.playId), t.concept, t.readKey, t.route, t.grade])).toEqual(BY_HAND);
    expect(
      everyThrow()
        .throws.filter((t) => t.readKey === null)
        .every((t) => t.grade === 'not tagged'),
    ).toBe(true);
  });

  it('are graded anew at once when a rule changes, and back when it is taken back', () => {
    const rule = vocabularyView(station).readRules.find(
      (r) => r.concept === 'smash' && r.whenKey === 'drops',
    )!;
    setReadRule(station, rule.id, { goTo: 'corner' });
    const wrong = () => everyThrow().lines.find((line) => line.grade === 'wrong')!;
    expect(wrong().playIds.map(numberOf)).toEqual([12, 25, 31]);
    expect(wrong().metrics).toMatchObject({ attempts: 3, interceptions: 1 });
    setReadRule(station, rule.id, { removed: true });
    expect(wrong().playIds).toEqual([]);
    expect(
      everyThrow()
        .lines.find((line) => line.grade === 'no rule')!
        .playIds.map(numberOf),
    ).toEqual([12, 25, 31]);
    station.library.journal.undo();
    station.library.journal.undo();
    expect(
      everyThrow()
        .lines.map((line) => [line.grade, line.playIds.length])
        .slice(0, 3),
    ).toEqual([
      ['right', 16],
      ['wrong', 0],
      ['no rule', 0],
    ]);
  });

  it('stand by passer, by opponent and by what the key did', () => {
    const view = reads(station, { team: 'Herons', where: '' });
    expect(view.byOpponent.map((line) => line.name)).toEqual(['Mariners']);
    const stick = view.byKey.find((line) => line.name === 'stick: drops')!;
    expect([stick.detail, stick.plays.right.map(numberOf)]).toEqual(['flat', [26]]);
  });
});

describe('what a team of the sample calls', () => {
  const whose = { team: 'Herons', side: 'offense', families: true, contexts: ['down'], where: '' } as const;

  it('is counted by context, every count with exactly its plays', () => {
    const view = tendencies(station, { ...whose, call: 'playKind' });
    const [all, ...downs] = view.nodes;
    expect(all!.plays).toBe(view.playIds.length);
    expect(downs.reduce((sum, node) => sum + node.plays, 0)).toBe(all!.plays);
    for (const node of view.nodes)
      for (const call of node.calls)
        expect(
          call.plays.every((i) => station.columns().valueOf(view.playIds[i]!, 'playKind') === call.call),
        ).toBe(true);
    expect(view.trial).toBeNull();
    expect(view.verdict).toMatch(/one game/);
  });

  it('is foretold for a situation as it is said on the headset', () => {
    const view = callsNow(station, {
      ...whose,
      calls: ['playKind'],
      given: '1st & 10, left hash, own 35, 10 personnel',
    });
    expect(view.said.map(({ key, value }) => [key, value])).toEqual([
      ['down', '1'],
      ['toGo', 'long'],
      ['zone', 'own territory'],
      ['hash', 'L'],
      ['personnel', '10'],
    ]);
    const [field] = view.fields;
    expect(field!.calls.reduce((sum, call) => sum + call.expected, 0)).toBeCloseTo(1, 9);
  });

  it('is refused with the word that is no part of a situation', async () => {
    const given = '2nd & 8, sideways';
    const problem = await problemOf(() => callsNow(station, { ...whose, calls: ['playKind'], given }));
    expect(problem).toMatchObject({ code: 'situation-word', at: { start: 9, end: 17 } });
  });

  it('has no tell that a coin could not throw in one half of play', () => {
    const view = tells(station, { ...whose, call: 'playKind', withinSituation: true, pairs: true });
    expect(view.tells.every((tell) => tell.adjusted > 0)).toBe(true);
    expect(view.looked).toBeGreaterThan(10);
  });
});
