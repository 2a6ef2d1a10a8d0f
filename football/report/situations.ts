/** Named situations that sections of a report are split by, each as the question that finds its plays. */

export interface ReportSituation {
  readonly label: string;
  readonly where: string;
}

/** Short is 1 to 3 yards, medium 4 to 6, long 7 and more (common practice, no source). */
const BY_DOWN: readonly ReportSituation[] = [
  { label: '1st & 10', where: 'down = 1 AND distance = 10' },
  { label: '1st, other', where: 'down = 1 AND distance <> 10' },
  { label: '2nd & short (1–3)', where: 'down = 2 AND distance <= 3' },
  { label: '2nd & medium (4–6)', where: 'down = 2 AND distance BETWEEN 4 AND 6' },
  { label: '2nd & long (7+)', where: 'down = 2 AND distance >= 7' },
  { label: '3rd & short (1–3)', where: 'down = 3 AND distance <= 3' },
  { label: '3rd & medium (4–6)', where: 'down = 3 AND distance BETWEEN 4 AND 6' },
  { label: '3rd & long (7+)', where: 'down = 3 AND distance >= 7' },
  { label: '4th down', where: 'down = 4' },
];

/** Zones of the field by yards to the goal (common practice, no source). */
const ZONES: readonly ReportSituation[] = [
  { label: 'Backed up (own 1–10)', where: 'yardsToGoal >= 90' },
  { label: 'Own territory (own 11–39)', where: 'yardsToGoal BETWEEN 61 AND 89' },
  { label: 'Midfield (40 to 40)', where: 'yardsToGoal BETWEEN 40 AND 60' },
  { label: 'Fringe (+39 to +21)', where: 'yardsToGoal BETWEEN 21 AND 39' },
  { label: 'Red zone (+20 to +6)', where: 'yardsToGoal BETWEEN 6 AND 20' },
  { label: 'Goal line (+5 to +1)', where: 'yardsToGoal <= 5' },
];

const CALL_SHEET: readonly ReportSituation[] = [
  ...BY_DOWN.filter(({ label }) => label !== '1st, other' && label !== '4th down'),
  { label: 'Red zone (+20 to +6)', where: 'yardsToGoal BETWEEN 6 AND 20' },
  { label: 'Goal line (+5 to +1)', where: 'yardsToGoal <= 5' },
  { label: 'Backed up (own 1–10)', where: 'yardsToGoal >= 90' },
  { label: 'Two minutes (end of a half)', where: 'quarter IN (2, 4) AND clock <= 120' },
];

export const SITUATION_SETS = {
  downAndDistance: { label: 'Down and distance', situations: BY_DOWN },
  zone: { label: 'Zone of the field', situations: ZONES },
  callSheet: { label: 'Situations of a call sheet', situations: CALL_SHEET },
} as const satisfies Record<string, { label: string; situations: readonly ReportSituation[] }>;

/** The situations of a set named as `set:zone`; null where the name is a field's. */
export function situationsOf(rows: string): readonly ReportSituation[] | null {
  if (!rows.startsWith('set:')) return null;
  const name = rows.slice(4);
  return Object.hasOwn(SITUATION_SETS, name)
    ? SITUATION_SETS[name as keyof typeof SITUATION_SETS].situations
    : null;
}
