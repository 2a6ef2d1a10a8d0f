import { inQuarter, kick, pass, run, type ScriptLine } from './script.ts';

export const FIRST_HALF = (): readonly ScriptLine[] => [
  inQuarter(1, kick('kickoff', 'touchback', 69)),
  // Herons, drive 1
  run('inside zone', ['11', 'doubles', 'field', 'strong'], ['under', 'Cover 4', 'four-man rush'], {
    blocksHold: 0.6,
  }),
  pass('stick', ['11', 'trips', 'field', 'half slide'], ['over', 'Cover 3 sky', 'four-man rush'], {
    flats: 'expand',
  }),
  pass('smash', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 2', 'four-man rush']),
  run('counter', ['11', 'doubles', 'field', 'strong'], ['even', 'Cover 1', 'four-man rush'], {
    blocksHold: 0.6,
    motion: 'return',
  }),
  pass('mesh', ['11', 'doubles', 'field', 'man'], ['over', 'Cover 1', 'edge'], { motion: 'short' }),
  pass('curl-flat', ['11', 'doubles', 'field', 'big on big'], ['over', 'Cover 3 cloud', 'four-man rush'], {
    flats: 'sink',
  }),
  run('power', ['21', 'I', 'field', 'strong'], ['under', 'Cover 3 sky', 'four-man rush'], {
    shell: 'one-high',
    blocksHold: 0.6,
  }),
  pass('snag', ['11', 'bunch', 'field', 'half slide'], ['over', 'Cover 3 sky', 'field'], {
    brokenTackles: 1,
  }),
  run('inside zone', ['12', 'singleback', 'field', 'strong'], ['over', 'Cover 1', 'four-man rush'], {
    shell: 'one-high',
    blocksHold: 0.8,
  }),
  pass('stick', ['11', 'trips', 'field', 'quick'], ['over', 'Cover 1', 'A-gap'], { shell: 'one-high' }),
  pass('smash', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 4', 'four-man rush']),
  run('power', ['21', 'I', 'field', 'strong'], ['under', 'Cover 2', 'four-man rush'], { blocksHold: 1 }),
  kick('try', 'good'),
  kick('kickoff', 'returned', 61),
  // Mariners, drive 2
  run('inside zone', ['11', 'trips', 'field', 'strong'], ['even', 'Cover 3 sky', 'four-man rush'], {
    blocksHold: 0.3,
  }),
  pass('curl-flat', ['11', 'pistol', 'field', 'big on big'], ['over', 'Cover 4', 'four-man rush'], {
    flats: 'expand',
    miss: { across: 1.6, downfield: 2 },
  }),
  inQuarter(
    2,
    pass(
      'four verticals',
      ['11', 'empty', 'field', 'full slide'],
      ['over', 'Cover 3 buzz', 'four-man rush'],
      {
        hold: 'sack',
      },
    ),
  ),
  kick('punt', 'fairCatch', 41),
  // Herons, drive 3
  pass('four verticals', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 2', 'four-man rush']),
  run('counter', ['11', 'pistol', 'field', 'strong'], ['over', 'Cover 3 cloud', 'four-man rush'], {
    blocksHold: 0.8,
  }),
  pass('snag', ['11', 'bunch', 'field', 'half slide'], ['even', 'Cover 3 cloud', 'four-man rush'], {
    flats: 'expand',
  }),
  pass('mesh', ['11', 'doubles', 'field', 'big on big'], ['even', 'Cover 0', 'zero'], { motion: 'short' }),
  run('inside zone', ['11', 'trips', 'field', 'weak'], ['odd', 'Cover 4', 'four-man rush'], {
    blocksHold: 0.4,
  }),
  pass('smash', ['11', 'doubles', 'field', 'half slide'], ['over', 'Cover 3 sky', 'four-man rush'], {
    flats: 'sink',
    miss: { across: 1.5, downfield: 2 },
  }),
  pass('stick', ['11', 'trips tight end', 'field', 'man'], ['over', 'Cover 3 buzz', 'A-gap'], {
    flats: 'sink',
    miss: { across: 1, downfield: -2 },
  }),
  kick('fieldGoal', 'good'),
  kick('kickoff', 'touchback', 68),
  // Mariners, drive 4
  pass('stick', ['11', 'trips', 'field', 'half slide'], ['over', 'Cover 3 cloud', 'four-man rush'], {
    flats: 'sink',
  }),
  run('power', ['21', 'I', 'field', 'strong'], ['even', 'Cover 3 sky', 'four-man rush'], {
    blocksHold: 0.3,
    shell: 'one-high',
  }),
  pass('smash', ['10', 'doubles', 'field', 'man'], ['odd', 'Cover 3 sky', 'field'], {
    flats: 'expand',
    intoCoverage: true,
  }),
  // Herons, drive 5
  pass('curl-flat', ['11', 'doubles', 'field', 'half slide'], ['under', 'Cover 2', 'four-man rush']),
  pass('four verticals', ['11', 'trips', 'field', 'max'], ['over', 'Cover 1', 'edge'], { hold: 'throwaway' }),
  kick('fieldGoal', 'good'),
];
