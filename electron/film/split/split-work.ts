import { parentPort } from 'node:worker_threads';
import type { FilmTools } from '../film-types.ts';
import { lastWords } from '../run.ts';
import { readSmall } from './read-small.ts';
import { type Split, Splitter } from './splitter.ts';

/** What the worker is told to do. */
export interface SplitOrder {
  readonly path: string;
  readonly tools: FilmTools;
  readonly fps: number;
  /** frames of the film's table */
  readonly frames: number;
  readonly ptsMicros: Float64Array;
  readonly stops: readonly number[];
  readonly timeLimitMs: number;
}

export type SplitAnswer =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'split'; readonly split: Split }
  | { readonly kind: 'cancelled' | 'too-slow' }
  | { readonly kind: 'failed'; readonly message: string };

/** Frames between two words of progress. */
const SAY_EVERY = 200;

/** Does the order: decodes the film and finds its shots and plays. */
async function split(
  order: SplitOrder,
  signal: AbortSignal,
  say: (answer: SplitAnswer) => void,
): Promise<void> {
  const { path, tools, timeLimitMs, frames, stops } = order;
  const splitter = new Splitter(order.fps);
  const end = await readSmall({
    path,
    tools,
    timeLimitMs,
    signal,
    onFrame: (full) => {
      // a decoder that gives more frames than the film's table has does not count on
      if (splitter.frames < frames) splitter.push(full);
      if (splitter.frames % SAY_EVERY === 0) say({ kind: 'progress', done: splitter.frames / frames });
    },
  });
  if (end.stopped === 'cancelled') return say({ kind: 'cancelled' });
  if (end.stopped === 'too-slow') return say({ kind: 'too-slow' });
  if (splitter.frames === 0) return say({ kind: 'failed', message: lastWords(end.errors) });
  say({ kind: 'split', split: splitter.finish(stops.filter((stop) => stop < splitter.frames)) });
}

const stopping = new AbortController();
parentPort?.on('message', (message: SplitOrder | 'stop') => {
  if (message === 'stop') return stopping.abort();
  void split(message, stopping.signal, (answer) => parentPort?.postMessage(answer));
});
