import { inQuarter, kick, pass, run, type ScriptLine } from './script.ts';

/** First half. L and R are the side of the formation’s strength, as the offense sees it. */
const [L, R] = [-1, 1] as const;

export const FIRST_HALF = (): readonly ScriptLine[] => [
  inQuarter(1, kick('kickoff', 'touchback', 69)),
  // Herons, drive 1
  pass('stick', ['10', 'trips', L, 'half slide'], ['over', 'Cover 3 sky', 'four-man rush'], {
    flats: 'sink',
  }),
  run('counter', ['11', 'doubles', L, R], ['odd', 'Cover 2', 'four-man rush'], { blocksHold: 1 }),
  pass('mesh', ['10', 'doubles', L, 'half slide'], ['bear', 'Cover 1', 'four-man rush'], {
    flats: 'sink',
    hold: 'sack',
  }),
  pass('smash', ['11', 'doubles', R, 'half slide'], ['over', 'Cover 1', 'field'], {
    miss: { across: 2, downfield: 1 },
  }),
  pass('snag', ['11', 'bunch', R, 'half slide'], ['even', 'Cover 3 buzz', 'edge']),
  kick('punt', 'returned', 44),
  // Mariners, drive 2
  pass('curl-flat', ['11', 'pistol', L, 'big on big'], ['odd', 'Cover 3 cloud', 'four-man rush'], {
    flats: 'sink',
    miss: { across: 2, downfield: 1 },
  }),
  run('power', ['20', 'pistol', L, R], ['under', 'Cover 3 sky', 'field'], { blocksHold: 0.2 }),
  run('inside zone', ['11', 'trips', L, R], ['over', 'Cover 3 buzz', 'edge'], { blocksHold: 1 }),
  kick('punt', 'returned', 44),
  // Herons, drive 3
  pass('four verticals', ['11', 'doubles', L, 'half slide'], ['odd', 'Cover 3 cloud', 'four-man rush']),
  pass('curl-flat', ['11', 'pistol', R, 'big on big'], ['under', 'Cover 3 cloud', 'four-man rush'], {
    flats: 'sink',
    brokenTackles: 1,
  }),
  inQuarter(2, run('inside zone', ['10', 'doubles', R, R], ['even', 'Cover 0', 'zero'], { blocksHold: 0.6 })),
  pass('snag', ['11', 'bunch', R, 'half slide'], ['odd', 'Cover 0', 'zero'], {
    flats: 'expand',
    brokenTackles: 1,
  }),
  pass('mesh', ['11', 'doubles', L, 'big on big'], ['even', 'Cover 3 sky', 'four-man rush'], {
    flats: 'expand',
    intoCoverage: true,
  }),
  pass('stick', ['11', 'trips', L, 'man'], ['over', 'Cover 3 buzz', 'edge'], {
    flats: 'expand',
    miss: { across: 2, downfield: 1 },
  }),
  pass('stick', ['11', 'trips', R, 'man'], ['under', 'Cover 1', 'A-gap']),
  kick('try', 'good'),
  kick('kickoff', 'returned', 60),
  // Mariners, drive 4
  run('inside zone', ['10', 'doubles', L, R], ['odd', 'Cover 3 buzz', 'four-man rush'], { blocksHold: 0.6 }),
  run('power', ['12', 'singleback', R, L], ['bear', 'Cover 3 sky', 'four-man rush'], { blocksHold: 0.2 }),
  run('counter', ['11', 'pistol', L, L], ['under', 'Cover 1', 'field'], { blocksHold: 0.2 }),
  kick('punt', 'returned', 44),
  // Herons, drive 5
  pass('smash', ['11', 'doubles', R, 'big on big'], ['over', 'Cover 0', 'zero'], { flats: 'sink' }),
  run('counter', ['11', 'doubles', R, L], ['under', 'Cover 3 buzz', 'four-man rush'], { blocksHold: 0.6 }),
];
