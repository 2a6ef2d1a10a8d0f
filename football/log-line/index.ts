/** The log line: a whole play in one line of text, in any order. README.md describes the syntax. */
export { completeLogLine } from './complete.ts';
export { indexVocabulary, type VocabularyIndex } from './index-vocabulary.ts';
export { buildHistory, forgetPlay, type History, rankTerms, recordPlay } from './likelihood.ts';
export { printLogLine } from './print.ts';
export { readLogLine } from './read.ts';
export type {
  Candidate,
  FieldChange,
  Likelihood,
  LineChange,
  LineProblem,
  LogLineContext,
  LogLineReading,
  LogToken,
  Suggestion,
  TokenStatus,
  Vocabulary,
  VocabularyPlayer,
  VocabularyTerm,
} from './types.ts';
