import { describe, expect, it } from 'vitest';
import { seeded } from '../../../football/tendencies/seeded.ts';
import { findTells, type TellRequest } from '../../../football/tendencies/tells.ts';

/** A team that gives nothing away but what `plant` says: the chance of a pass on a play with these tags. */
function team(
  seed: number,
  plays: number,
  plant: (tags: Record<string, string>, down: string) => number,
): TellRequest {
  const random = seeded(seed);
  const pick = (values: readonly string[]) => values[Math.floor(random() * values.length)]!;
  const calls: string[] = [];
  const situations: string[] = [];
  const values: Record<string, string[]> = {
    motion: [],
    formation: [],
    personnel: [],
    hash: [],
    backfield: [],
  };
  for (let i = 0; i < plays; i++) {
    const tags = {
      motion: pick(['none', 'jet', 'orbit', 'short']),
      formation: pick(['doubles', 'trips', 'tight']),
      personnel: pick(['11', '12']),
      hash: pick(['L', 'M', 'R']),
      backfield: pick(['offset', 'pistol']),
    };
    const down = pick(['1', '2', '3']);
    for (const [key, value] of Object.entries(tags)) values[key]!.push(value);
    situations.push(down);
    calls.push(random() < plant(tags, down) ? 'pass' : 'run');
  }
  const fields = Object.entries(values).map(([key, own]) => ({ key, values: own }));
  return { calls, situations, fields, pairs: true };
}

describe('tells', () => {
  it('finds a planted single tag and ranks it first', () => {
    const found = findTells(
      team(1, 300, ({ motion }) => (motion === 'jet' ? 0.15 : 0.6)),
      { shuffles: 199 },
    );
    const [first] = found.tells;
    expect(first!.tags).toEqual([['motion', 'jet']]);
    expect(first!.adjusted).toBeLessThanOrEqual(0.01);
    expect(first!.counts[0]! + first!.counts[1]!).toBe(first!.plays.length);
  });

  it('finds a planted pair where neither tag alone says much', () => {
    const odd = (t: Record<string, string>) =>
      (t.personnel === '12') === (t.backfield === 'pistol') ? 0.8 : 0.25;
    const found = findTells(team(2, 400, odd), { shuffles: 199 });
    expect(found.tells[0]!.tags.map(([key]) => key).sort()).toEqual(['backfield', 'personnel']);
    expect(found.tells[0]!.adjusted).toBeLessThanOrEqual(0.01);
    expect(
      findTells({ ...team(2, 400, odd), pairs: false }, { shuffles: 199 }).tells[0]!.adjusted,
    ).toBeGreaterThan(0.05);
  });

  it('does not take third down for a tell of what comes with it', () => {
    const onThird = team(3, 400, (_, down) => (down === '3' ? 0.95 : 0.3));
    // a tag that stands for nothing but third down
    const spread = { key: 'spread', values: onThird.situations.map((down) => (down === '3' ? 'yes' : 'no')) };
    const within = { ...onThird, fields: [...onThird.fields, spread] };
    const anywhere = { ...within, situations: within.calls.map(() => 'all') };
    expect(findTells(anywhere, { shuffles: 99 }).tells[0]!.adjusted).toBeLessThanOrEqual(0.01);
    const tell = findTells(within, { shuffles: 99 }).tells.find(
      (t) => t.tags.length === 1 && t.tags[0]![0] === 'spread',
    );
    expect(tell!.adjusted).toBeGreaterThan(0.5);
  });

  it('measures bits by hand: a tag that splits eight plays cleanly gives one bit', () => {
    const values = ['x', 'y'].flatMap((v) => Array<string>(6).fill(v));
    const found = findTells(
      {
        calls: values.map((v) => (v === 'x' ? 'pass' : 'run')),
        situations: values.map(() => ''),
        fields: [{ key: 'f', values }],
        pairs: false,
      },
      { shuffles: 99 },
    );
    expect(found.tells[0]!.bits).toBeCloseTo(1, 12);
  });

  it('reports a false tell in no more than the promised one season of twenty, over 200 seasons of coins', () => {
    let falsely = 0;
    for (let season = 0; season < 200; season++) {
      const found = findTells(
        team(1000 + season, 120, () => 0.5),
        { shuffles: 99, seed: season },
      );
      if (found.tells.some((tell) => tell.adjusted <= 0.05)) falsely++;
    }
    // 5 % of 200 are 10; beyond 18 a binomial of that chance comes once in a hundred
    expect(falsely).toBeLessThanOrEqual(18);
    process.stdout.write(`false tells in ${falsely} of 200 seasons\n`);
  });
});
