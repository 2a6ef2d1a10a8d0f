import type { BoxScore } from '../../../football/box/box-score.ts';
import { formatClock, formatSpot } from '../../../football/values.ts';
import { asColumns } from './output.ts';

/** `thirdDownConversions` as `third down conversions`. */
function words(key: string): string {
  return key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
}

/** A box score for reading: teams side by side, then players, drives and the scoring. */
export function boxLines(score: BoxScore): string[] {
  const { home, away } = score.teams;
  const teamRows = Object.keys(home)
    .filter((key) => key !== 'team')
    .map((key) => [
      words(key),
      String(home[key as keyof typeof home]),
      String(away[key as keyof typeof away]),
    ]);
  const lines = asColumns(['', home.team, away.team], teamRows);
  for (const [group, players] of Object.entries(score.players) as [string, readonly object[]][]) {
    if (players.length === 0) continue;
    const keys = Object.keys(players[0] ?? {});
    lines.push(
      '',
      words(group),
      ...asColumns(
        keys.map(words),
        players.map((p) => Object.values(p).map(String)),
      ),
    );
  }
  lines.push(
    '',
    'drives',
    ...asColumns(
      ['drive', 'team', 'quarter', 'clock', 'from', 'calls', 'yards', 'points', 'end'],
      score.drives.map((d) => [
        String(d.drive),
        d.team,
        String(d.quarter ?? ''),
        d.clock === null ? '' : formatClock(d.clock),
        d.from === null ? '' : formatSpot(d.from),
        ...[d.calls, d.yards, d.points].map(String),
        words(d.end ?? ''),
      ]),
    ),
  );
  if (score.scoring.length > 0) {
    const keys = Object.keys(score.scoring[0] ?? {}).filter((k) => k !== 'playId');
    lines.push(
      '',
      'scoring',
      ...asColumns(
        keys.map(words),
        score.scoring.map((s) => keys.map((k) => String((s as unknown as Record<string, unknown>)[k] ?? ''))),
      ),
    );
  }
  return lines;
}
