/**
 * The 16,124 run and pass plays of the open 2022 data (weeks 1 to 9; see `../shared/data/README.md`), twice: as rows
 * of the source, and as plays of ours. Real data for tests only.
 */

import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import type { QuestionTerm } from '../../../football/question/vocabulary.ts';
import { hasData, readRows } from '../../support/open-data.ts';

const FILES = ['bdb2025_2022_plays.csv.gz', 'bdb2025_2022_play_derived.csv.gz'] as const;

export const REAL_PLAYS_THERE = FILES.every(hasData);

export type SourceRow = Readonly<Record<string, string | undefined>>;

/** Rows of both files joined, in the order of games and plays. */
export function sourceRows(): SourceRow[] {
  const idOf = (row: SourceRow) => `${row.gameId}-${row.playId?.padStart(5, '0')}`;
  const derived = new Map((readRows(FILES[1]) as SourceRow[]).map((row) => [idOf(row), row]));
  return (readRows(FILES[0]) as SourceRow[])
    .map((row): SourceRow => ({ ...derived.get(idOf(row)), ...row, id: idOf(row) }))
    .sort((a, b) => (a.id! < b.id! ? -1 : 1));
}

export function said(row: SourceRow, column: string): string | null {
  const text = row[column];
  return text === undefined || text === '' || text === 'NA' ? null : text;
}

export function counted(row: SourceRow, column: string): number | null {
  const text = said(row, column);
  return text === null ? null : Number(text);
}

const FAMILY_OF: Readonly<Record<string, string>> = {
  'Cover-3 Seam': 'Cover-3',
  'Cover-3 Cloud Right': 'Cover-3',
  'Cover-3 Cloud Left': 'Cover-3',
  'Cover-3 Double Cloud': 'Cover-3 Cloud Left',
  'Cover-1 Double': 'Cover-1',
  '2-Man': 'Cover-2',
};

/** The family of a coverage of the source, as this test sorts them. */
export function coverageFamily(coverage: string): string {
  const parent = FAMILY_OF[coverage];
  return parent === undefined ? coverage : coverageFamily(parent);
}

export const REAL_TERMS: readonly QuestionTerm[] = [
  ...Object.entries(FAMILY_OF).map(([name, parent]) => ({ field: 'coverage', name, parent })),
  ...[...new Set(Object.values(FAMILY_OF).map(coverageFamily))].map((name) => ({ field: 'coverage', name })),
];

const RESULTS: Readonly<Record<string, string>> = {
  C: 'complete',
  I: 'incomplete',
  IN: 'interception',
  S: 'sack',
  R: 'scramble',
};

export function toPlay(row: SourceRow): PlayRecord {
  const isKneel = row.qbKneel === '1';
  const isSpike = row.qbSpike === 'TRUE';
  const passResult = said(row, 'passResult');
  const yardLine = counted(row, 'yardlineNumber')!;
  const clock = /^(\d+):(\d+)$/.exec(row.gameClock!)!;
  const tags: Record<string, string | number> = {};
  const texts = {
    personnel: 'personnelCode_byRosterPosition',
    formation: 'offenseFormation',
    receivers: 'receiverAlignment',
    concept: 'pff_runConceptPrimary',
    coverage: 'pff_passCoverage',
    route: 'targetRoute',
  };
  for (const [field, column] of Object.entries(texts)) {
    const text = said(row, column);
    if (text !== null) tags[field] = text;
  }
  const rushers = counted(row, 'nInitialPassRushers');
  if (rushers !== null) tags.rushers = rushers;
  return {
    ...blankPlay(row.id!, row.gameId!),
    playNumber: counted(row, 'playId'),
    quarter: counted(row, 'quarter'),
    clock: Number(clock[1]) * 60 + Number(clock[2]),
    possession: said(row, 'possessionTeam'),
    down: counted(row, 'down'),
    distance: counted(row, 'yardsToGo'),
    yardsToGoal: row.yardlineSide === row.possessionTeam ? 100 - yardLine : yardLine,
    playKind: isKneel ? 'kneel' : isSpike ? 'spike' : passResult === null ? 'run' : 'pass',
    result: isKneel ? 'rush' : passResult === null ? 'rush' : RESULTS[passResult]!,
    gain: counted(row, 'yardsGained'),
    airYards: counted(row, 'passLength'),
    yardsAfterCatch: passResult === 'C' ? counted(row, 'targetYAC') : null,
    note: said(row, 'playDescription'),
    tags,
  };
}
