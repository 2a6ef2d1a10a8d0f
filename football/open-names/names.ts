/** How open play-by-play data spells fouls and teams, in our terms. */

/** Fouls as the professional league names them, by lower-cased name: our term. */
const FOULS: Readonly<Record<string, string>> = {
  'offensive holding': 'holding',
  'defensive holding': 'defensive holding',
  'false start': 'false start',
  'defensive offside': 'offside',
  'offensive offside': 'offside',
  'offside on free kick': 'offside',
  offside: 'offside',
  'neutral zone infraction': 'neutral zone infraction',
  encroachment: 'encroachment',
  'delay of game': 'delay of game',
  'defensive delay of game': 'delay of game',
  'delay of kickoff': 'delay of game',
  'illegal formation': 'illegal formation',
  'kickoff formation': 'illegal formation',
  'illegal shift': 'illegal shift',
  'illegal motion': 'illegal motion',
  'illegal substitution': 'illegal substitution',
  'defensive too many men on field': 'too many men',
  'offensive too many men on field': 'too many men',
  'too many men on field': 'too many men',
  'offensive 12 on-field': 'too many men',
  'defensive 12 on-field': 'too many men',
  'defensive pass interference': 'pass interference',
  'offensive pass interference': 'pass interference',
  'illegal contact': 'illegal contact',
  'illegal use of hands': 'illegal use of hands',
  'illegal forward pass': 'illegal forward pass',
  'intentional grounding': 'intentional grounding',
  'ineligible downfield pass': 'ineligible downfield',
  'ineligible downfield kick': 'ineligible downfield',
  'player out of bounds on kick': 'ineligible downfield',
  'player out of bounds on punt': 'ineligible downfield',
  'illegal touch pass': 'illegal touching',
  'illegal touch kick': 'illegal touch of a kick',
  'short free kick': 'illegal touch of a kick',
  'unnecessary roughness': 'unnecessary roughness',
  'personal foul': 'personal foul',
  'unsportsmanlike conduct': 'unsportsmanlike conduct',
  taunting: 'taunting',
  disqualification: 'unsportsmanlike conduct',
  'roughing the passer': 'roughing the passer',
  'roughing the kicker': 'roughing the kicker',
  'running into the kicker': 'running into the kicker',
  'face mask (15 yards)': 'face mask',
  'face mask': 'face mask',
  'horse collar tackle': 'horse collar',
  'illegal block above the waist': 'block in the back',
  'illegal blindside block': 'illegal block',
  'illegal crackback': 'illegal block',
  'illegal peelback': 'illegal block',
  'illegal double-team block': 'illegal block',
  'illegal wedge': 'illegal block',
  'low block': 'low block',
  clipping: 'clipping',
  'chop block': 'chop block',
  tripping: 'tripping',
  leaping: 'leaping',
  leverage: 'leverage',
  'lowering the head to initiate contact': 'targeting',
  'lowering the head to make forcible contact': 'targeting',
  'fair catch interference': 'kick catch interference',
  'interference with opportunity to catch': 'kick catch interference',
  'kick catch interference': 'kick catch interference',
  'kickoff out of bounds': 'kickoff out of bounds',
  'kickoff short of landing zone': 'kickoff out of bounds',
  'illegal bat': 'illegal batting',
};

/** Our term for a foul as open data names it; an unknown name is kept as it is, in lower case. */
export function openFoul(name: string): string {
  const key = name.trim().toLowerCase().replace(/\s+/g, ' ');
  return FOULS[key] ?? key;
}

/** Abbreviations that mean the same team, by season and by source. */
const SAME_TEAM: readonly (readonly string[])[] = [
  ['ARI', 'ARZ'],
  ['BAL', 'BLT'],
  ['CLE', 'CLV'],
  ['HOU', 'HST'],
  ['JAC', 'JAX'],
  ['LA', 'LAR', 'STL', 'SL'],
  ['LAC', 'SD'],
  ['LV', 'OAK', 'RAI'],
  ['WAS', 'WSH'],
];

/** Which of two teams an abbreviation means; null for neither. */
export function teamOf(code: string, home: string, away: string): string | null {
  const key = code.toUpperCase();
  if (key === home.toUpperCase()) return home;
  if (key === away.toUpperCase()) return away;
  const same = SAME_TEAM.find((codes) => codes.includes(key));
  if (same?.includes(home.toUpperCase())) return home;
  if (same?.includes(away.toUpperCase())) return away;
  return null;
}
