import { loadPlaysById } from '../../../db/repositories/play-records.ts';
import { listReadRules } from '../../../db/repositories/vocabulary.ts';
import {
  type FamilyPath,
  gradeThrow,
  isOptionRoute,
  READ_GRADES,
  type ReadGrade,
  type ReadRule,
} from '../../../football/reads/grade.ts';
import { termKey } from '../../../football/vocabulary/terms.ts';
import type { GradedView, ReadLine, ReadsRequest, ReadsView } from '../read-views.ts';
import type { Station } from '../station.ts';
import { lineOf, readQuestion } from './answers.ts';

const METRICS = [
  'attempts',
  'completionPct',
  'yardsPerAttempt',
  'successRate',
  'explosiveRate',
  'interceptions',
];

/**
 * Grades every throw that a question finds by the rules as they now are; nothing is stored, so a changed rule regrades
 * at once. @throws ProblemError why the question cannot be read
 */
export function reads(station: Station, request: ReadsRequest): ReadsView {
  const rules = readRules(station);
  const familyPath = familyPaths(station);
  const playIds = station.columns().playIds(readQuestion(station, request.where));
  const records = new Map(
    loadPlaysById(station.library.db, playIds).map(({ record }) => [record.playId, record]),
  );
  const teamsIn = teamsByGame(station);
  const throws: GradedView[] = [];
  const optionThrows: GradedView[] = [];
  for (const playId of playIds) {
    const play = records.get(playId);
    if (!play || (request.team !== '' && play.possession !== request.team)) continue;
    const graded = gradeThrow(play, rules, familyPath);
    if (!graded) continue;
    const tag = (key: string) => (play.tags[key] === undefined ? null : String(play.tags[key]));
    const view: GradedView = {
      playId,
      grade: graded.grade,
      concept: tag('concept'),
      readKey: tag('readKey'),
      route: tag('route'),
      target: tag('target'),
      passer: tag('passer'),
      opponent: (teamsIn.get(play.gameId) ?? []).find((team) => team !== play.possession) ?? null,
      goTo: [...new Set(graded.rules.map((rule) => rule.goTo ?? ''))].join(' or ') || null,
      missing: graded.missing,
    };
    throws.push(view);
    if (graded.rules.some(isOptionRoute)) optionThrows.push(view);
  }
  const byGrade = (grade: ReadGrade) => throws.filter((t) => t.grade === grade).map((t) => t.playId);
  const isOption = new Set(optionThrows);
  const tagged = throws.filter((t) => t.concept !== null && t.readKey !== null);
  const keyed = (t: GradedView) => `${t.concept}: ${t.readKey}`;
  const goTo = (t: GradedView) => t.goTo;
  return {
    throws,
    lines: READ_GRADES.map((grade) => ({ grade, ...lineOf(station, byGrade(grade), METRICS) })),
    metrics: METRICS,
    byPasser: linesBy(throws, (t) => t.passer ?? 'passer not tagged'),
    byOpponent: linesBy(throws, (t) => t.opponent ?? 'opponent not known'),
    byKey: linesBy(
      tagged.filter((t) => !isOption.has(t)),
      keyed,
      goTo,
    ),
    byOptionRoute: linesBy(optionThrows, keyed, goTo),
  };
}

function linesBy(
  throws: readonly GradedView[],
  nameOf: (t: GradedView) => string,
  detailOf: (t: GradedView) => string | null = () => null,
): ReadLine[] {
  const lines = new Map<
    string,
    { name: string; detail: string | null; plays: Record<ReadGrade, string[]> }
  >();
  for (const each of throws) {
    const name = nameOf(each);
    let line = lines.get(name);
    if (!line) {
      line = {
        name,
        detail: detailOf(each),
        plays: { right: [], wrong: [], 'no rule': [], 'not tagged': [] },
      };
      lines.set(name, line);
    }
    line.detail ??= detailOf(each);
    line.plays[each.grade].push(each.playId);
  }
  return [...lines.values()].sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
}

function readRules(station: Station): ReadRule[] {
  return listReadRules(station.library).map(({ id, concept, keyDefender, whenKey, goTo }) => ({
    id,
    concept: concept ?? '',
    keyDefender,
    whenKey,
    goTo,
  }));
}

function familyPaths(station: Station): FamilyPath {
  const { terms, findTerm } = station.vocabulary();
  const byId = new Map(terms.map((term) => [term.id, term]));
  return (field, name) => {
    const path: string[] = [];
    const seen = new Set<string>();
    let term = findTerm(field, name);
    if (!term) return [name];
    while (term && !seen.has(term.id)) {
      seen.add(term.id);
      path.push(term.name);
      term = term.parentId === null ? null : (byId.get(term.parentId) ?? null);
    }
    // a rule may have been written with another spelling of the same term
    return path.flatMap((each) => [each, ...spellings(field, each)]);
  };
  function spellings(field: string, name: string): readonly string[] {
    return findTerm(field, name)?.aliases.filter((alias) => termKey(alias) !== termKey(name)) ?? [];
  }
}

/** Per game the teams that had the ball in it, and its opponent. */
function teamsByGame(station: Station): ReadonlyMap<string, readonly string[]> {
  const rows = station.library.db
    .prepare(
      `SELECT DISTINCT game_id AS gameId, possession AS team FROM plays
         WHERE removed = 0 AND possession IS NOT NULL AND game_id IS NOT NULL
       UNION SELECT id, opponent FROM games WHERE removed = 0 AND opponent IS NOT NULL
       UNION SELECT id, $ours FROM games WHERE removed = 0 AND opponent IS NOT NULL AND $ours <> ''`,
    )
    .all({ ours: station.team }) as { gameId: string; team: string }[];
  const teams = new Map<string, string[]>();
  for (const { gameId, team } of rows) teams.set(gameId, [...(teams.get(gameId) ?? []), team]);
  return teams;
}
