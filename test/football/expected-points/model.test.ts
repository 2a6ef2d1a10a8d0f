import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../../football/expected-points/form.ts';
import { OUTCOMES } from '../../../football/expected-points/form.ts';
import {
  EXPECTED_POINTS_CALIBRATION,
  expectedPoints,
  expectedPointsOf,
} from '../../../football/expected-points/model.ts';
import { calibrationError, correlation } from '../../../scripts/expected-points/calibration.ts';
import { designOf, fitMultinomial, probabilitiesOf } from '../../../scripts/expected-points/newton.ts';
import { readLeaguePoints, readSheet, readTrainingPlays } from '../../../scripts/expected-points/read.ts';

const DATA = '../shared/data';
const present = existsSync(`${DATA}/ep_training_2009_2014.csv.gz`);
const json = (name: string) => JSON.parse(readFileSync(`${DATA}/${name}`, 'utf8'));

describe('expected points', () => {
  it('are total: every corner of the field, clock and downs gives probabilities that add up to one', () => {
    for (const down of [1, 2, 3, 4])
      for (const yardsToGoal of [1, 2, 20, 50, 80, 98, 99])
        for (const distance of [0.5, 1, 10, 40, 99])
          for (const halfSecondsRemaining of [0, 1, 30, 119, 120, 600, 1800, null]) {
            const { ep, probabilities } = expectedPoints({
              down,
              distance,
              yardsToGoal,
              halfSecondsRemaining,
            });
            const total = Object.values(probabilities).reduce((a, b) => a + b, 0);
            expect(total).toBeCloseTo(1, 9);
            expect(Math.abs(ep)).toBeLessThanOrEqual(7);
          }
  });

  it('fall as the goal is farther away and as downs are used up', () => {
    const at = (down: number, yardsToGoal: number) =>
      expectedPoints({ down, distance: Math.min(10, yardsToGoal), yardsToGoal, halfSecondsRemaining: 900 })
        .ep;
    // from the 11 a first down is still to be had short of the goal, so 10 and 11 are not compared
    for (let y = 2; y <= 99; y++)
      if (y !== 11) expect([y, at(1, y) < at(1, y - 1) + 0.02]).toEqual([y, true]);
    for (const y of [5, 25, 50, 75, 95])
      for (const down of [2, 3, 4]) expect([y, down, at(down, y) < at(down - 1, y)]).toEqual([y, down, true]);
  });

  it('say how they were checked', () => {
    expect(EXPECTED_POINTS_CALIBRATION.calibrationError).toBeLessThanOrEqual(0.012);
    for (const season of Object.values(EXPECTED_POINTS_CALIBRATION.bySeason))
      expect(season.calibrationError).toBeLessThanOrEqual(0.012);
  });
});

describe.skipIf(!present)(
  'expected points against open data (skipped where ../shared/data is absent)',
  () => {
    it.each(['v1', 'v2'])('give the check vectors of reference form %s', (version) => {
      const model = expectedPointsOf(json(`ep_multinomial_${version}.json`));
      for (const vector of json(`ep_${version}_check_vectors.json`)) {
        const { ep, probabilities } = model({
          down: vector.down,
          distance: vector.ydstogo,
          yardsToGoal: vector.yardline_100,
          halfSecondsRemaining: vector.half_seconds,
        });
        expect(ep).toBeCloseTo(vector.ep, 3);
        OUTCOMES.forEach((o: Outcome, i) => {
          expect(probabilities[o]).toBeCloseTo(vector.probs[i], 4);
        });
      }
    });

    it('agree with the league’s own numbers of 2022, and without bias once the year is told', () => {
      const plays = readLeaguePoints(`${DATA}/bdb2025_2022_plays.csv.gz`);
      expect(plays).toHaveLength(15990);
      const theirs = plays.map((p) => p.points);
      const ours = plays.map((p) => expectedPoints(p.at).ep);
      const yearless = plays.map((p) => expectedPoints({ ...p.at, season: 2014 }).ep);
      expect(correlation(ours, theirs)).toBeGreaterThanOrEqual(0.985);
      expect(correlation(yearless, theirs)).toBeGreaterThanOrEqual(0.985);
      const bias = ours.reduce((sum, ep, i) => sum + ep - theirs[i]!, 0) / ours.length;
      expect(Math.abs(bias)).toBeLessThan(0.15);
    });

    it('agree with the published table (M. Morris, August 2020)', () => {
      const rows = readSheet(`${DATA}/ep_published_nflfastR_2_1_0_table.csv`);
      const ours = rows.map(
        (row) =>
          expectedPoints({
            down: Number(row.down),
            distance: Number(row.ydstogo),
            yardsToGoal: Number(row.yardline_100),
            halfSecondsRemaining: 900,
          }).ep,
      );
      expect(rows).toHaveLength(192);
      expect(
        correlation(
          ours,
          rows.map((row) => Number(row.ep)),
        ),
      ).toBeGreaterThanOrEqual(0.995);
    });

    it('are found again by the fit on a sample, and predict plays that the fit has not seen', {
      timeout: 120_000,
    }, () => {
      const plays = readTrainingPlays(`${DATA}/ep_training_2009_2014.csv.gz`);
      const reference = json('ep_multinomial_v2.json');
      const games = [...new Set(plays.map((play) => play.game))];
      const sixth = new Set(games.filter((_, i) => i % 6 === 0));
      const seen = plays.filter((play) => sixth.has(play.game));
      const unseen = plays.filter((play) => !sixth.has(play.game));
      const fit = fitMultinomial(designOf(seen, reference.terms), undefined, 1e-3);
      const p = probabilitiesOf(designOf(unseen, reference.terms), fit.coefficients);
      const outcomes = unseen.map((play) => play.outcome);
      expect(calibrationError(p, outcomes)).toBeLessThanOrEqual(0.012);
      const stored = expectedPointsOf(reference);
      const ours = unseen.map(
        (_, i) => 7 * (p[i * 7]! - p[i * 7 + 1]!) + 3 * (p[i * 7 + 2]! - p[i * 7 + 3]!),
      );
      const theirs = unseen.map((play) => stored(play.at).ep);
      expect(correlation(ours, theirs)).toBeGreaterThan(0.99);
    });
  },
);
