import { inQuarter, kick, pass, run, type ScriptLine } from './script.ts';

/** Second half. L and R are the side of the formation’s strength, as the offense sees it. */
const [L, R] = [-1, 1] as const;

export const SECOND_HALF = (): readonly ScriptLine[] => [
  inQuarter(3, kick('kickoff', 'touchback', 69)),
  // Mariners, drive 6
  run('power', ['21', 'I', L, R], ['over', 'Cover 4', 'four-man rush'], { blocksHold: 0.2 }),
  pass('four verticals', ['11', 'doubles', R, 'full slide'], ['over', 'Cover 3 sky', 'four-man rush'], {
    flats: 'sink',
    hold: 'scramble',
  }),
  pass('mesh', ['11', 'empty', R, 'quick'], ['odd', 'Cover 3 sky', 'field'], { flats: 'sink' }),
  run('counter', ['11', 'pistol', R, R], ['over', 'Cover 1', 'edge'], { blocksHold: 0.6, brokenTackles: 1 }),
  run('counter', ['11', 'pistol', R, R], ['odd', 'Cover 1', 'A-gap'], { blocksHold: 1 }),
  pass('snag', ['11', 'bunch', L, 'max'], ['odd', 'Cover 1', 'A-gap'], {
    flats: 'expand',
    miss: { across: 2, downfield: 1 },
  }),
  kick('punt', 'returned', 44),
  // Herons, drive 7
  pass('four verticals', ['10', 'doubles', L, 'full slide'], ['under', 'Cover 4', 'four-man rush'], {
    miss: { across: 2, downfield: 1 },
  }),
  pass('curl-flat', ['11', 'doubles', L, 'max'], ['odd', 'Cover 4', 'four-man rush']),
  pass('smash', ['10', 'doubles', L, 'half slide'], ['over', 'Cover 3 buzz', 'edge'], { brokenTackles: 1 }),
  run('power', ['20', 'pistol', L, L], ['over', 'Cover 3 sky', 'field'], {
    blocksHold: 0.8,
    brokenTackles: 1,
  }),
  run('inside zone', ['11', 'trips', R, L], ['over', 'Cover 4', 'four-man rush'], { blocksHold: 0.8 }),
  inQuarter(
    4,
    run('inside zone', ['12', 'singleback', L, R], ['under', 'Cover 3 sky', 'field'], { blocksHold: 1 }),
  ),
  run('power', ['20', 'pistol', L, R], ['even', 'Cover 3 sky', 'four-man rush'], { blocksHold: 0.8 }),
  pass('mesh', ['11', 'empty', L, 'quick'], ['over', 'Cover 2', 'four-man rush']),
  pass('stick', ['11', 'trips', L, 'big on big'], ['over', 'Cover 3 buzz', 'four-man rush']),
  pass('four verticals', ['11', 'doubles', R, 'man'], ['over', 'Cover 3 cloud', 'four-man rush']),
  pass('smash', ['10', 'doubles', R, 'man'], ['odd', 'Cover 3 sky', 'field'], {
    flats: 'expand',
    intoCoverage: true,
  }),
  // Mariners, drive 8
  run('power', ['12', 'singleback', R, R], ['even', 'Cover 3 buzz', 'four-man rush'], { blocksHold: 0.8 }),
  pass('curl-flat', ['11', 'doubles', R, 'half slide'], ['bear', 'Cover 1', 'four-man rush'], {
    flats: 'expand',
    brokenTackles: 1,
  }),
  run('counter', ['11', 'doubles', R, L], ['bear', 'Cover 3 sky', 'field'], { blocksHold: 0.2 }),
  pass('snag', ['10', 'bunch', R, 'man'], ['bear', 'Cover 2', 'four-man rush']),
  pass('mesh', ['11', 'doubles', L, 'max'], ['even', 'Cover 3 buzz', 'four-man rush'], {
    flats: 'sink',
    brokenTackles: 1,
  }),
  run('inside zone', ['12', 'singleback', L, R], ['over', 'Cover 1', 'edge'], { blocksHold: 0.6 }),
  run('inside zone', ['11', 'trips', R, R], ['over', 'Cover 0', 'zero'], { blocksHold: 1 }),
];
