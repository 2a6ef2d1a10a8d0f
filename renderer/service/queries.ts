import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { PivotRequest } from '../../electron/service/pivot-views.ts';
import { keys } from './cache.ts';
import { service } from './client.ts';
import { questionCalls } from './question-calls.ts';

export const useLibrary = () => useQuery({ queryKey: keys.library, queryFn: service.library });

export const useVocabulary = () => useQuery({ queryKey: keys.vocabulary, queryFn: service.vocabulary });

export const useMetrics = () => useQuery({ queryKey: keys.metrics, queryFn: service.metrics });

export const useSettings = () => useQuery({ queryKey: keys.settings, queryFn: service.settings });

export const useGames = () => useQuery({ queryKey: keys.games, queryFn: service.games });

export const useFilms = () => useQuery({ queryKey: keys.films, queryFn: service.films });

export const useJobs = () => useQuery({ queryKey: keys.jobs, queryFn: service.jobs });

export const useQuestions = () => useQuery({ queryKey: keys.questions, queryFn: service.questions });

export const useCutups = () => useQuery({ queryKey: keys.cutups, queryFn: service.cutups });

export const useCutup = (cutupId: string | null) =>
  useQuery({
    queryKey: keys.cutup(cutupId ?? ''),
    queryFn: () => service.cutup(cutupId!),
    enabled: cutupId !== null,
  });

/** Plays of a game, in play order. */
export const usePlays = (gameId: string | null) =>
  useQuery({
    queryKey: keys.plays(gameId ?? ''),
    queryFn: () => service.plays(gameId!),
    enabled: gameId !== null,
  });

/** Plays in the order of the ids. */
export const usePlaysById = (playIds: readonly string[]) =>
  useQuery({
    queryKey: keys.playsById(playIds),
    queryFn: () => service.playsById(playIds),
    enabled: playIds.length > 0,
  });

/** Count and numbers of a question; what was shown stays until the new answer is there. */
export const useAnswer = (where: string, metrics: readonly string[] = []) =>
  useQuery({
    queryKey: keys.answer(where, metrics),
    queryFn: () => service.answer(where, metrics.length ? metrics : undefined),
    placeholderData: keepPreviousData,
  });

/** The line of numbers of exactly these plays. */
export const useLine = (playIds: readonly string[], metrics: readonly string[]) =>
  useQuery({
    queryKey: keys.line(playIds, metrics),
    queryFn: () => service.line(playIds, metrics),
    enabled: playIds.length > 0,
    placeholderData: keepPreviousData,
  });

export const usePivot = (request: PivotRequest | null) =>
  useQuery({
    queryKey: keys.table(request),
    queryFn: () => questionCalls.pivot(request!),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });
