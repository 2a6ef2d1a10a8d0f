import type { Candidate, LogLineReading, LogToken, Suggestion } from '../../../../football/log-line/index.ts';
import type { NewTerm } from './vocabulary-index.ts';

export interface LineText {
  readonly text: string;
  readonly cursor: number;
}

/** Puts something in place of a part of the line; at its end a blank follows, so that typing goes on at once. */
function put(text: string, start: number, end: number, insert: string): LineText {
  const rest = text.slice(end);
  const blank = rest === '' && !insert.endsWith(':') ? ' ' : '';
  const before = text.slice(0, start) + insert + blank;
  return { text: before + rest, cursor: before.length };
}

export function takeSuggestion(text: string, suggestion: Suggestion): LineText {
  return put(text, suggestion.start, suggestion.end, suggestion.insert);
}

/** The first word that has to be settled before the line can be logged. */
export function askingToken(reading: LogLineReading): LogToken | null {
  return reading.tokens.find((token) => token.status !== 'understood' && token.candidates.length > 0) ?? null;
}

/** The name that a candidate for a new term would add: what stands behind the colon of its spelling. */
export function newTermOf(candidate: Candidate): NewTerm | null {
  if (candidate.kind !== 'newTerm') return null;
  const said = candidate.insert.slice(candidate.insert.indexOf(':') + 1);
  const name = said.startsWith('"') ? said.slice(1, -1).replaceAll('""', '"') : said;
  return { field: candidate.field, name };
}

export function takeCandidate(text: string, token: LogToken, candidate: Candidate): LineText {
  return put(text, token.start, token.end, candidate.insert);
}

/** Of the terms that were offered as new, those that the line still says. */
export function termsSaid(reading: LogLineReading, newTerms: readonly NewTerm[]): NewTerm[] {
  return newTerms.filter(({ field, name }) =>
    reading.changes.some(
      (change) => change.field === field && change.value.kind === 'term' && change.value.name === name,
    ),
  );
}
