import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { NowRequest, TellsRequest, TendencyRequest } from '../../electron/service/tendency-views.ts';
import { answer, api } from './api.ts';

type Sent<T> = { -readonly [K in keyof T]: T[K] extends readonly string[] ? string[] : T[K] };

/** A list of the window is read-only, one that is sent is not. */
function sent<T extends { readonly contexts: readonly string[] }>(request: T): Sent<T> {
  return { ...request, contexts: [...request.contexts] } as Sent<T>;
}

const numbers = (name: string, request: unknown) => ['numbers', name, request] as const;

export const useTeams = () =>
  useQuery({ queryKey: ['numbers', 'teams'], queryFn: () => answer(api.teams.$get()) });

export const useTendencies = (request: TendencyRequest | null) =>
  useQuery({
    queryKey: numbers('tendencies', request),
    queryFn: () => answer(api.tendencies.$post({ json: sent(request!) })),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });

export const useCallsNow = (request: NowRequest | null) =>
  useQuery({
    queryKey: numbers('now', request),
    queryFn: () =>
      answer(api.tendencies.now.$post({ json: { ...sent(request!), calls: [...request!.calls] } })),
    enabled: request !== null,
    placeholderData: keepPreviousData,
    retry: false,
  });

export const useTells = (request: TellsRequest | null) =>
  useQuery({
    queryKey: numbers('tells', request),
    queryFn: () => answer(api.tendencies.tells.$post({ json: sent(request!) })),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });

export const useReads = (request: { readonly team: string; readonly where: string } | null) =>
  useQuery({
    queryKey: numbers('reads', request),
    queryFn: () => answer(api.reads.$post({ json: request! })),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });
