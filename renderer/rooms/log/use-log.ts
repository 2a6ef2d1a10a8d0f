import { useEffect, useMemo } from 'react';
import type { GameView, PlayView } from '../../../electron/service/views.ts';
import { useGames, usePlays } from '../../service/queries.ts';
import { goToPlace, placeStore } from '../../state/place.ts';
import { useStore } from '../../state/store.ts';
import { type DriveGroup, driveGroups, groupOf } from './ribbon/drive-groups.ts';

export interface Log {
  readonly games: readonly GameView[];
  readonly game: GameView | null;
  readonly plays: readonly PlayView[];
  readonly loading: boolean;
  /** index of the play that is being logged; -1 where there is none */
  readonly at: number;
  readonly play: PlayView | null;
  readonly groups: readonly DriveGroup[];
  /** index into `groups` */
  readonly group: number;
  readonly goToGame: (gameId: string) => void;
  readonly goTo: (playId: string) => void;
  readonly goBy: (plays: number) => void;
  readonly goByDrive: (drives: number) => void;
  readonly goToUnlogged: () => void;
}

const NO_PLAYS: readonly PlayView[] = [];

/** The game that is being logged, and where in it logging stands. */
export function useLog(): Log {
  const place = useStore(placeStore);
  const { data: games = [], isPending } = useGames();
  const game =
    games.find((each) => each.gameId === place.gameId) ??
    // the game that has something left to log, else the newest
    games.find((each) => each.logged > 0 && each.logged < each.plays) ??
    games.find((each) => each.plays > 0) ??
    games[0] ??
    null;
  const { data: plays = NO_PLAYS, isPending: playsPending } = usePlays(game?.gameId ?? null);
  const groups = useMemo(() => driveGroups(plays), [plays]);
  const found = plays.findIndex((play) => play.playId === place.playId);
  const firstOpen = plays.findIndex((play) => !play.logged);
  const at = found >= 0 ? found : firstOpen >= 0 ? firstOpen : plays.length - 1;
  const play = plays[at] ?? null;
  const group = play ? groupOf(groups, play.playId) : -1;

  // the place is kept once it is known, so that a change of the list does not move it
  useEffect(() => {
    if (game && play && (place.playId === null || place.gameId !== game.gameId))
      goToPlace({ gameId: game.gameId, playId: play.playId });
  }, [game, play, place]);

  const goTo = (playId: string) => goToPlace({ gameId: game?.gameId ?? null, playId });
  return {
    games,
    game,
    plays,
    loading: isPending || (game !== null && playsPending),
    at,
    play,
    groups,
    group,
    goToGame: (gameId) => goToPlace({ gameId, playId: null }),
    goTo,
    goBy: (by) => {
      const next = plays[at + by];
      if (next) goTo(next.playId);
    },
    goByDrive: (by) => {
      const next = groups[group + by]?.plays[0];
      if (next) goTo(next.playId);
    },
    goToUnlogged: () => {
      const next = plays.slice(at + 1).find((each) => !each.logged) ?? plays.find((each) => !each.logged);
      if (next) goTo(next.playId);
    },
  };
}
