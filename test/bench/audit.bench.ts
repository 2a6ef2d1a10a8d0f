import { makeAuditor } from '../../football/audit/audit.ts';
import { boxScore } from '../../football/box/box-score.ts';
import { blankPlay, type PlayRecord } from '../../football/play.ts';
import { rulesFor } from '../../football/rules/index.ts';
import { record } from './record.ts';

/** Times of the game itself: an audit after a key, a box score of 20,000 plays. */
const play = (i: number, more: Partial<PlayRecord> = {}): PlayRecord => ({
  ...blankPlay(`p${i}`, 'g'),
  playNumber: i + 1,
  quarter: 1 + Math.floor((i % 180) / 45),
  possession: i % 12 < 6 ? 'Herons' : 'Mariners',
  down: 1 + (i % 3),
  distance: 10 - (i % 5),
  yardsToGoal: 75 - (i % 40),
  playKind: i % 2 ? 'pass' : 'run',
  result: i % 2 ? 'complete' : 'rush',
  gain: i % 9,
  tags: { passer: '#7', target: `#${80 + (i % 8)}`, carrier: '#22' },
  ...more,
});
const game = Array.from({ length: 180 }, (_, i) => play(i));
const teams = { home: 'Herons', away: 'Mariners' };
const audit = makeAuditor(rulesFor('ncaa'), teams);
for (let i = 0; i < 50; i += 1) audit(game);
const times: number[] = [];
for (let i = 0; i < 300; i += 1) {
  const typed = game.map((p, at) => (at === (i * 7) % 180 ? { ...p, gain: i % 9 } : p));
  const start = performance.now();
  audit(typed);
  times.push(performance.now() - start);
}
times.sort((a, b) => a - b);
record('auditing a game of 180 plays after a key', times[150] ?? 0, 2, 'ms');

const many = Array.from({ length: 20_000 }, (_, i) => play(i));
const boxes: number[] = [];
for (let i = 0; i < 9; i += 1) {
  const start = performance.now();
  boxScore(many, teams, 'ncaa');
  boxes.push(performance.now() - start);
}
record('a box score of 20,000 plays', boxes.sort((a, b) => a - b)[4] ?? 0, 50, 'ms');
