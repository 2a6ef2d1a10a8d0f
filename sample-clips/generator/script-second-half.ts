import { inQuarter, kick, pass, run, type ScriptLine } from './script.ts';

export const SECOND_HALF = (): readonly ScriptLine[] => [
  inQuarter(3, kick('kickoff', 'returned', 62)),
  // Mariners, drive 6
  run('inside zone', ['12', 'singleback', 'field', 'strong'], ['over', 'Cover 3 sky', 'four-man rush'], {
    blocksHold: 0.6,
    shell: 'one-high',
  }),
  pass(
    'four verticals',
    ['11', 'doubles', 'field', 'half slide'],
    ['even', 'Cover 3 cloud', 'four-man rush'],
  ),
  pass('curl-flat', ['11', 'pistol', 'field', 'half slide'], ['over', 'Cover 3 buzz', 'four-man rush'], {
    flats: 'sink',
  }),
  pass('mesh', ['11', 'doubles', 'field', 'half slide'], ['over', 'Cover 1', 'four-man rush'], {
    brokenTackles: 1,
  }),
  run('power', ['21', 'I', 'field', 'strong'], ['under', 'Cover 4', 'four-man rush'], { blocksHold: 0.6 }),
  pass('smash', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 2', 'four-man rush']),
  pass('snag', ['11', 'bunch', 'field', 'half slide'], ['over', 'Cover 1', 'edge']),
  kick('try', 'good'),
  kick('kickoff', 'touchback', 70),
  // Herons, drive 7
  pass('stick', ['10', 'trips', 'field', 'half slide'], ['even', 'Cover 4', 'four-man rush'], {
    flats: 'sink',
  }),
  pass('mesh', ['11', 'doubles', 'field', 'half slide'], ['over', 'Cover 3 buzz', 'four-man rush'], {
    motion: 'across',
  }),
  run('power', ['20', 'pistol', 'field', 'strong'], ['over', 'Cover 2', 'four-man rush'], {
    blocksHold: 0.6,
  }),
  pass('four verticals', ['11', 'trips', 'field', 'half slide'], ['over', 'Cover 3 sky', 'field']),
  inQuarter(
    4,
    run('inside zone', ['11', 'doubles', 'field', 'strong'], ['odd', 'Cover 2', 'four-man rush'], {
      motion: 'jet',
      blocksHold: 0.4,
    }),
  ),
  pass('smash', ['11', 'doubles', 'field', 'half slide'], ['even', 'Cover 1', 'A-gap']),
  run('power', ['21', 'I', 'field', 'strong'], ['under', 'Cover 3 sky', 'four-man rush'], { blocksHold: 1 }),
  kick('try', 'good'),
  kick('kickoff', 'returned', 63),
  // Mariners, drive 8
  pass('stick', ['11', 'trips', 'field', 'half slide'], ['over', 'Cover 2', 'four-man rush']),
  pass('curl-flat', ['11', 'doubles', 'field', 'half slide'], ['over', 'Cover 1', 'A-gap'], {
    miss: { across: 2, downfield: 1 },
  }),
  pass('four verticals', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 4', 'four-man rush']),
  pass('four verticals', ['11', 'doubles', 'field', 'half slide'], ['odd', 'Cover 4', 'four-man rush'], {
    hold: 'scramble',
  }),
  pass('mesh', ['11', 'empty', 'field', 'quick'], ['over', 'Cover 3 cloud', 'four-man rush']),
  // the passer's key widens, which says stick: he throws the flat all the same
  pass('stick', ['11', 'trips', 'field', 'half slide'], ['over', 'Cover 3 sky', 'four-man rush'], {
    flats: 'expand',
    throwTo: 'flat',
  }),
  pass('four verticals', ['10', 'doubles', 'field', 'half slide'], ['even', 'Cover 2', 'four-man rush'], {
    miss: { across: 0.5, downfield: 3 },
  }),
  pass('smash', ['10', 'doubles', 'field', 'man'], ['odd', 'Cover 3 sky', 'field'], {
    flats: 'expand',
    intoCoverage: true,
  }),
  // Herons, drive 9
  pass('snag', ['11', 'bunch', 'field', 'big on big'], ['even', 'Cover 0', 'zero']),
  run('power', ['21', 'I', 'field', 'strong'], ['under', 'Cover 1', 'four-man rush'], {
    blocksHold: 0.8,
    shell: 'one-high',
  }),
  run('counter', ['11', 'pistol', 'field', 'strong'], ['under', 'Cover 4', 'four-man rush'], {
    blocksHold: 0.6,
  }),
];
