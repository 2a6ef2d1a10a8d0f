import { useMemo } from 'react';
import type { CutupDetailView, CutupItemView, PlayView } from '../../../electron/service/views.ts';
import { PlayThrough } from '../../player/PlayThrough.tsx';
import { useCutup, usePlaysById } from '../../service/queries.ts';
import { ClipCard } from './ClipCard.tsx';
import { ClipList } from './ClipList.tsx';
import { CutupHead } from './CutupHead.tsx';
import { ExportJobs } from './ExportJobs.tsx';
import { TeachCommands } from './TeachCommands.tsx';
import classes from './teach.module.css';
import { shownFrames } from './trims.ts';
import { useBench } from './use-bench.ts';

const NO_PLAYS: readonly string[] = [];

/** One cut-up: its clips in order, its film with its numbers, and what can be said of the clip that is shown. */
export function CutupBench({ cutupId }: { readonly cutupId: string }) {
  const { data: cutup } = useCutup(cutupId);
  const playIds = useMemo(() => cutup?.list.map((item) => item.playId) ?? NO_PLAYS, [cutup?.list]);
  const { data: plays } = usePlaysById(playIds);
  if (!cutup) return null;
  return <Bench cutup={cutup} plays={plays ?? []} />;
}

function Bench({ cutup, plays }: { readonly cutup: CutupDetailView; readonly plays: readonly PlayView[] }) {
  const byId = useMemo(() => new Map(plays.map((play) => [play.playId, play])), [plays]);
  const playOf = (item: CutupItemView) => byId.get(item.playId) ?? null;
  const bench = useBench(cutup, playOf);
  const play = bench.current ? playOf(bench.current) : null;
  const wideItem = bench.wide ? bench.current?.itemId : null;

  const items = useMemo(
    () =>
      cutup.list.map((item) => ({
        playId: item.playId,
        angles: item.angles ?? cutup.angles,
        trims: item.itemId === wideItem ? widened(item, byId.get(item.playId) ?? null) : item.trims,
        note: item.note,
      })),
    [cutup.list, cutup.angles, wideItem, byId],
  );

  return (
    <>
      <div className={classes.middle} data-print-flow>
        <CutupHead cutup={cutup} plays={plays} onChange={bench.change} />
        <ExportJobs name={cutup.name} />
        <ClipList cutup={cutup} playOf={playOf} bench={bench} />
      </div>
      <div className={classes.right} data-noprint>
        <section className={classes.film} aria-label="Film">
          <PlayThrough
            items={items}
            startAt={bench.start.index}
            turn={bench.start.turn}
            onIndex={bench.follow}
            player={bench.player}
            autoPlay={!bench.wide}
          />
        </section>
        {bench.current && <ClipCard key={bench.current.itemId} bench={bench} cutup={cutup} play={play} />}
        <TeachCommands bench={bench} />
      </div>
    </>
  );
}

/** Frames of film shown on either side of a clip that is to be trimmed longer: about four seconds at 30 a second. */
const AROUND = 120;

function widened(item: CutupItemView, play: PlayView | null): CutupItemView['trims'] {
  return Object.fromEntries(
    (play?.clips ?? []).map((clip) => {
      const [inFrame, outFrame] = shownFrames(item, clip);
      const first = Math.min(inFrame, clip.inFrame) - AROUND;
      return [clip.angle, [Math.max(0, first), Math.max(outFrame, clip.outFrame) + AROUND]];
    }),
  );
}
