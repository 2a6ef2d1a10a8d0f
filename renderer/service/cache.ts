import { QueryClient } from '@tanstack/react-query';

/** The service is on this machine and tells of every change, so nothing is asked for twice unprompted. */
export const cache = new QueryClient({
  defaultOptions: {
    queries: { staleTime: Number.POSITIVE_INFINITY, retry: 1, refetchOnWindowFocus: false },
  },
});

/** Names of what is kept; events and answers patch or drop by these. */
export const keys = {
  library: ['library'] as const,
  vocabulary: ['vocabulary'] as const,
  metrics: ['metrics'] as const,
  settings: ['settings'] as const,
  games: ['games'] as const,
  plays: (gameId: string) => ['plays', gameId] as const,
  playsById: (playIds: readonly string[]) => ['playsById', ...playIds] as const,
  films: ['films'] as const,
  proposals: (filmId: string) => ['films', 'proposals', filmId] as const,
  frameTimes: (filmId: string) => ['frameTimes', filmId] as const,
  answer: (where: string, metrics: readonly string[]) => ['numbers', 'answer', where, ...metrics] as const,
  line: (playIds: readonly string[], metrics: readonly string[]) =>
    ['numbers', 'line', metrics, playIds] as const,
  box: (gameId: string) => ['numbers', 'box', gameId] as const,
  table: (request: unknown) => ['numbers', 'table', request] as const,
  facets: (where: string) => ['numbers', 'facets', where] as const,
  whyNothing: (where: string) => ['numbers', 'whyNothing', where] as const,
  questions: ['questions'] as const,
  cutups: ['cutups'] as const,
  cutup: (cutupId: string) => ['cutups', cutupId] as const,
  jobs: ['jobs'] as const,
};
