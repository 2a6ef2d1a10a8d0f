import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { FilmView, ProposalView } from '../../../../electron/service/views.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import type { ClipPlayer } from '../../../player/clip-player.ts';
import { keys } from '../../../service/cache.ts';
import { filmCalls } from '../../../service/film-calls.ts';
import { gesture } from '../../../service/gesture.ts';
import { takeIn } from '../../../service/play-cache.ts';
import { useJobs } from '../../../service/queries.ts';
import { createStore, useStore } from '../../../state/store.ts';
import { wholeFilm } from '../use-log-film.ts';
import { choose, chosenPlay, join, moveEnd, type Proposals, reject, splitAt } from './proposals.ts';

/** What was moved, joined and left out is kept while the window is open, from room to room. */
const worked = createStore<Readonly<Record<string, Proposals>>>({});
const NONE: Proposals = { list: [], at: -1 };

export interface ProposedPlays {
  readonly proposals: Proposals;
  /** the film has been looked through */
  readonly looked: boolean;
  /** 0..1 while it is looked through */
  readonly looking: number | null;
  readonly find: () => void;
  readonly goTo: (at: number) => void;
  readonly accept: () => void;
  readonly acceptAll: () => void;
}

/** The proposed plays of a recording, and the keys that work on them. Nothing is a play before it is accepted. */
export function useProposals(
  player: ClipPlayer,
  recording: FilmView | null,
  onMade: (playId: string) => void,
): ProposedPlays {
  const filmId = recording?.filmId ?? '';
  const { data } = useQuery({
    queryKey: keys.proposals(filmId),
    queryFn: () => filmCalls.proposals(filmId),
    enabled: recording !== null,
  });
  const { data: jobs = [] } = useJobs();
  const job = jobs.find(
    (each) =>
      each.kind === 'split-film' &&
      (each.state === 'running' || each.state === 'waiting') &&
      each.label.endsWith(recording?.name ?? ''),
  );
  const proposals = useStore(worked)[filmId] ?? NONE;
  const put = (next: Proposals) => worked.set((now) => ({ ...now, [filmId]: next }));
  const looked = data?.looked ?? false;

  useEffect(() => {
    if (!data?.looked || worked.get()[data.filmId]) return;
    worked.set((now) => ({
      ...now,
      [data.filmId]: { list: data.proposals, at: data.proposals.length > 0 ? 0 : -1 },
    }));
  }, [data]);

  const show = (to: ProposalView | undefined) => {
    if (!recording || !to) return;
    const { clip } = player.state.get();
    if (clip?.filmId === recording.filmId) {
      player.bound({ inFrame: 0, outFrame: recording.frames });
      player.goTo(to.inFrame);
    } else void player.load(wholeFilm(recording), { at: to.inFrame });
  };
  const goTo = (at: number) => {
    const next = choose(proposals, at);
    put(next);
    show(next.list[next.at]);
  };
  const frame = () => {
    const { clip, frame: shown } = player.state.get();
    return clip?.filmId === filmId ? shown : null;
  };
  const find = () => {
    if (recording && !job) void gesture(() => filmCalls.split(recording.filmId));
  };
  const take = async (list: readonly ProposalView[]) => {
    if (list.length === 0) return;
    const made = await gesture(() => filmCalls.accept(filmId, list));
    if (!made) return;
    takeIn(made.changed);
    const plays = new Set(list.map((p) => p.play));
    const now = worked.get()[filmId] ?? NONE;
    const left = now.list.filter((p) => !plays.has(p.play));
    put(choose({ list: left, at: now.at }, Math.min(now.at, left.length - 1)));
    const [first] = made.playIds;
    if (first && left.length === 0) onMade(first);
  };
  const accept = () => void take(chosenPlay(proposals));
  const acceptAll = () => void take(proposals.list);
  const some = () => proposals.list.length > 0;
  const change = (to: (now: Proposals, at: number) => Proposals) => () => {
    const at = frame();
    if (at !== null) put(to(proposals, at));
  };

  useCommand('proposals.find', find, () => recording !== null);
  useCommand('proposal.next', () => goTo(proposals.at + 1), some);
  useCommand('proposal.previous', () => goTo(proposals.at - 1), some);
  useCommand('proposal.accept', accept, some);
  useCommand('proposal.acceptAll', acceptAll, some);
  useCommand(
    'proposal.reject',
    () => {
      const next = reject(proposals);
      put(next);
      show(next.list[next.at]);
    },
    some,
  );
  useCommand('proposal.join', () => put(join(proposals)), some);
  useCommand('proposal.split', change(splitAt), some);
  useCommand(
    'proposal.in',
    change((now, at) => moveEnd(now, 'in', at)),
    some,
  );
  useCommand(
    'proposal.out',
    change((now, at) => moveEnd(now, 'out', at)),
    some,
  );

  return { proposals, looked, looking: job ? job.progress : null, find, goTo, accept, acceptAll };
}
