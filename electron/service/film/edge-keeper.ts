import { prepareEdges } from '../../export/reel/prepare-edges.ts';
import type { ReelSegment } from '../../export/reel-types.ts';
import type { Station } from '../station.ts';
import { edgeFolderOf } from './export-cutup.ts';
import { frameTableOf, whereIs } from './shelf.ts';
import { filmTools } from './stills.ts';

/** Clips are prepared when nobody has changed one for so long: while plays are being cut, the next change is near. */
const QUIET_MS = 4_000;
/** So many at a time, so that it stops soon when it has to. */
const CLIPS_AT_ONCE = 6;

interface ClipPlace {
  readonly id: string;
  readonly filmId: string;
  readonly inFrame: number;
  readonly outFrame: number;
}

/**
 * Makes the edges of clips in the background, so that a reel of them is little more than copying. Waits until logging
 * pauses and no job runs, works on one thread behind everything else, and forgets about clips that it can't prepare: their
 * reels then do it themselves.
 */
export class EdgeKeeper {
  private readonly done = new Set<string>();
  private timer: NodeJS.Timeout | null = null;
  private abort: AbortController | null = null;
  private working: Promise<void> = Promise.resolve();
  private readonly unlisten: () => void;
  private stopped = false;

  constructor(
    private readonly station: Station,
    private readonly quietMs = QUIET_MS,
  ) {
    this.unlisten = station.onEvent((event) => {
      if (event.type === 'films' || event.type === 'plays') this.wait();
    });
    this.wait();
  }

  /** For tests: when all that is known of has been prepared. */
  async settled(): Promise<void> {
    while (this.timer) await new Promise((later) => setTimeout(later, 20));
    await this.working;
    if (this.timer) await this.settled();
  }

  async stop(): Promise<void> {
    this.stopped = true;
    this.unlisten();
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    this.abort?.abort();
    await this.working;
  }

  private wait(): void {
    if (this.stopped) return;
    // a change while it works: what is half done is done again later
    this.abort?.abort();
    if (this.timer) clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.timer = null;
      this.working = this.working.then(() => this.work()).catch(() => {});
    }, this.quietMs);
    this.timer.unref();
  }

  private next(): ClipPlace[] {
    const clips = this.station.library.db
      .prepare(
        `SELECT c.id, c.film_id AS filmId, c.in_frame AS inFrame, c.out_frame AS outFrame
         FROM clips c JOIN films f ON f.id = c.film_id
         WHERE c.removed = 0 AND c.play_id IS NOT NULL AND NOT (c.in_frame = 0 AND c.out_frame >= f.frames)
         ORDER BY c.film_id, c.in_frame`,
      )
      .all() as ClipPlace[];
    const open = clips.filter((clip) => !this.done.has(nameOf(clip)));
    return open.filter(({ filmId }) => filmId === open[0]?.filmId).slice(0, CLIPS_AT_ONCE);
  }

  private async work(): Promise<void> {
    const tools = await filmTools().catch(() => null);
    if (!tools) return;
    const folder = edgeFolderOf(this.station);
    for (let clips = this.next(); clips.length > 0 && !this.stopped; clips = this.next()) {
      if (this.timer) return;
      if (this.station.jobs.list().some(({ state }) => state === 'running')) {
        this.wait();
        return;
      }
      const abort = new AbortController();
      this.abort = abort;
      try {
        await prepareEdges(await this.segments(clips), folder, tools, abort.signal);
      } catch {
        if (abort.signal.aborted) return;
      } finally {
        this.abort = null;
      }
      for (const clip of clips) this.done.add(nameOf(clip));
    }
  }

  private async segments(clips: readonly ClipPlace[]): Promise<ReelSegment[]> {
    const segments: ReelSegment[] = [];
    for (const { filmId, inFrame, outFrame } of clips) {
      const path = whereIs(this.station.library, filmId);
      if (path === null) continue;
      segments.push({
        path,
        table: await frameTableOf(this.station.library, filmId),
        inFrame,
        outFrame,
        filmId,
      });
    }
    return segments;
  }
}

function nameOf({ id, filmId, inFrame, outFrame }: ClipPlace): string {
  return `${id} ${filmId} ${inFrame} ${outFrame}`;
}
