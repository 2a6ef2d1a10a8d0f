import { useEffect, useMemo, useRef, useState } from 'react';
import type { Angle, PlayView } from '../../electron/service/views.ts';
import { useCommand } from '../commands/Commands.tsx';
import { NumbersLine } from '../parts/NumbersLine.tsx';
import { playInALine } from '../parts/play-words.ts';
import { useStore } from '../state/store.ts';
import { clipsInOrder } from './angles.ts';
import { ClipPlayer } from './clip-player.ts';
import { FilmBar } from './FilmBar.tsx';
import { FilmScreen } from './FilmScreen.tsx';
import { layoutStore } from './layout.ts';
import { useNearPlays } from './near-plays.ts';
import classes from './PlayThrough.module.css';
import type { PlayedClip } from './player-state.ts';
import { useFilmKeys } from './use-film-keys.ts';

/** One play of a list, and how it is to be shown there; what is not said is the play's own. */
export interface PlayThroughItem {
  readonly playId: string;
  /** angles in the order they play; missing: every angle the play has, sideline first */
  readonly angles?: readonly Angle[] | null;
  /** per angle, first frame and first frame after */
  readonly trims?: Readonly<Partial<Record<Angle, readonly [number, number]>>>;
  readonly note?: string | null;
}

export interface PlayThroughProps {
  readonly items: readonly PlayThroughItem[];
  /** index of the item to start with, when the list or `turn` changes */
  readonly startAt?: number;
  /** change it to start anew with the same list */
  readonly turn?: number;
  /** only this angle of each play, where it has it; `all` plays every angle after the other */
  readonly angle?: Angle | 'all';
  readonly onIndex?: (index: number) => void;
  readonly autoPlay?: boolean;
  /** given by a room that asks for the frame on the screen, to trim by it */
  readonly player?: ClipPlayer;
}

/** @param together the angles play side by side, so that the first one leads and the others do not come after it */
function clipsFor(
  play: PlayView,
  item: PlayThroughItem,
  angle: Angle | 'all',
  together: boolean,
): PlayedClip[] {
  const wanted = item.angles ?? (angle === 'all' ? null : [angle]);
  const all = clipsInOrder(play.clips);
  const chosen = wanted ? wanted.flatMap((each) => all.filter((clip) => clip.angle === each)) : all;
  const played = chosen.length ? chosen : all;
  return (together || chosen.length === 0 ? played.slice(0, 1) : played).map((clip) => {
    const trim = item.trims?.[clip.angle];
    return {
      filmId: clip.filmId,
      angle: clip.angle,
      inFrame: trim?.[0] ?? clip.inFrame,
      outFrame: trim?.[1] ?? clip.outFrame,
    };
  });
}

/** Plays a list of plays one clip after the other, with the line of numbers of all of them above the film. */
export function PlayThrough(props: PlayThroughProps) {
  const { items, startAt = 0, turn = 0, angle = 'all', onIndex, autoPlay = true } = props;
  const [own] = useState(() => props.player ?? new ClipPlayer());
  const player = props.player ?? own;
  const [at, setAt] = useState({ index: startAt, clip: 0 });
  const playIds = useMemo(() => items.map((item) => item.playId), [items]);
  const plays = useNearPlays(playIds, at.index);
  const byId = useMemo(() => new Map(plays?.map((play) => [play.playId, play])), [plays]);

  // a new turn starts anew even with the same list
  useEffect(() => setAt({ index: startAt, clip: 0 }), [startAt, turn]);

  const item = items[at.index];
  const play = item ? (byId.get(item.playId) ?? null) : null;
  const together = useStore(layoutStore) !== 'single';
  const clips = play && item ? clipsFor(play, item, angle, together) : [];
  const clip = clips[at.clip] ?? clips[0] ?? null;
  const shown = clip ? `${play?.playId} ${clip.filmId} ${clip.inFrame} ${clip.outFrame}` : null;

  // `shown` stands for the clip, `turn` for a new start
  useEffect(() => {
    if (!plays) return;
    void player.load(clip, { play: autoPlay });
    const next = items[at.index + 1];
    const nextPlay = next && byId.get(next.playId);
    player.warm([
      ...clips.slice(at.clip + 1, at.clip + 2).map((each) => each.filmId),
      ...(next && nextPlay ? clipsFor(nextPlay, next, angle, together).slice(0, 1) : []).map(
        (each) => each.filmId,
      ),
    ]);
  }, [shown, turn, player, plays === undefined]);

  useEffect(() => onIndex?.(at.index), [at.index, onIndex]);

  const goTo = (index: number) => {
    if (index >= 0 && index < items.length) setAt({ index, clip: 0 });
  };
  const latest = useRef(() => {});
  latest.current = () => {
    if (at.clip + 1 < clips.length) setAt({ index: at.index, clip: at.clip + 1 });
    else goTo(at.index + 1);
  };
  useEffect(() => {
    player.onEnd = () => latest.current();
    return () => {
      player.onEnd = null;
    };
  }, [player]);

  useFilmKeys(player, play);
  useCommand('play.next', () => goTo(at.index + 1));
  useCommand('play.previous', () => goTo(at.index - 1));

  return (
    <div className={classes.through}>
      <div className={classes.head}>
        <NumbersLine playIds={playIds} />
        <div className={classes.now} aria-live="polite">
          <span className={classes.count}>
            {items.length === 0 ? 'no plays' : `play ${at.index + 1} of ${items.length}`}
          </span>
          <span className={classes.words}>{play ? playInALine(play.record) : ''}</span>
          {item?.note && <span className={classes.note}>{item.note}</span>}
        </div>
      </div>
      <div className={classes.film}>
        <FilmScreen
          player={player}
          empty={items.length === 0 ? 'There are no plays here.' : 'This play has no film.'}
        />
      </div>
      <FilmBar player={player} play={play} />
    </div>
  );
}
