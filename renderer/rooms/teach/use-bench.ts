import { useRef, useState } from 'react';
import type { CutupDetailView, CutupItemView, PlayView } from '../../../electron/service/views.ts';
import { ClipPlayer } from '../../player/clip-player.ts';
import { cache, keys } from '../../service/cache.ts';
import { type CutupChange, cutupCalls, type ItemChange } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { tellProblem } from '../../service/problems.ts';
import { afterDrop, afterFor, moved } from './order.ts';
import { shownFrames, trimAt } from './trims.ts';

/** What stands on the bench: which clip is looked at, and the gestures on it. */
export function useBench(cutup: CutupDetailView, playOf: (item: CutupItemView) => PlayView | null) {
  const [player] = useState(() => new ClipPlayer());
  const [at, setAt] = useState(0);
  const [start, setStart] = useState({ index: 0, turn: 0 });
  /** the film around this item is shown, to trim it longer */
  const [wide, setWide] = useState<string | null>(null);
  const latest = useRef(cutup);
  latest.current = cutup;
  const current = cutup.list[at] ?? null;

  const take = (next: CutupDetailView | null) => {
    if (!next) return;
    cache.setQueryData(keys.cutup(next.cutupId), next);
    void cache.invalidateQueries({ queryKey: keys.cutups, exact: true });
  };

  const choose = (index: number) => {
    const to = Math.max(0, Math.min(latest.current.list.length - 1, index));
    setAt(to);
    setWide(null);
    setStart((now) => ({ index: to, turn: now.turn + 1 }));
  };

  const change = async (what: CutupChange) =>
    take(await gesture(() => cutupCalls.change(cutup.cutupId, what)));

  const changeItem = async (item: CutupItemView, what: ItemChange) =>
    take(await gesture(() => cutupCalls.changeItem(cutup.cutupId, item.itemId, what)));

  const move = async (from: number, to: number) => {
    const { list } = latest.current;
    const item = list[from];
    const order = moved(list, from, to);
    if (!item || order === list) return;
    const after = afterFor(list, from, to, (each) => each.itemId);
    // the order shows at once and is put right by the answer, or by asking again where it was refused
    cache.setQueryData<CutupDetailView>(keys.cutup(cutup.cutupId), { ...latest.current, list: order });
    const place = order.indexOf(item);
    setAt(place);
    setStart((now) => ({ ...now, index: place }));
    const answer = await gesture(() => cutupCalls.changeItem(cutup.cutupId, item.itemId, { after }));
    if (answer) take(answer);
    else void cache.invalidateQueries({ queryKey: keys.cutup(cutup.cutupId) });
  };

  const drop = async (index: number) => {
    const item = latest.current.list[index];
    if (!item) return;
    const next = afterDrop(latest.current.list.length, index);
    await changeItem(item, { removed: true });
    choose(next);
  };

  const trim = (side: 'in' | 'out') => {
    const { clip, frame, times } = player.state.get();
    const play = current && playOf(current);
    const own = play?.clips.find((each) => each.filmId === clip?.filmId && each.angle === clip?.angle);
    if (!current || !own || frame === null || !times) return;
    const changed = trimAt(shownFrames(current, own), side, frame, times.ptsMicros.length);
    if (!changed.ok) {
      tellProblem({ code: 'trim-order', message: changed.reason, kept: 'The trim was not changed.' });
      return;
    }
    void changeItem(current, { trims: { ...current.trims, [own.angle]: changed.trim } });
  };

  return {
    player,
    at,
    current,
    start,
    wide: wide !== null && wide === current?.itemId,
    setWide: (on: boolean) => setWide(on ? (current?.itemId ?? null) : null),
    /** the film has gone on to this clip by itself */
    follow: setAt,
    choose,
    change,
    changeItem,
    move,
    drop,
    trim,
    untrim: () => current && void changeItem(current, { trims: {} }),
  };
}

export type Bench = ReturnType<typeof useBench>;
