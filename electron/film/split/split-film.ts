import { Worker } from 'node:worker_threads';
import { fail, ok, type Result } from '../../../football/result.ts';
import type { FilmProbe, FilmProblem, FilmTools } from '../film-types.ts';
import { frameCount, rateNumber } from '../frame-table.ts';
import { refusal } from '../refusals.ts';
import type { SplitAnswer, SplitOrder } from './split-work.ts';
import type { Split } from './splitter.ts';
import { stopsOf } from './stops.ts';

export interface SplitOptions {
  readonly tools: FilmTools;
  readonly signal?: AbortSignal;
  /** 0..1 */
  readonly onProgress?: (done: number) => void;
  /** default: an hour and twice the film's length */
  readonly timeLimitMs?: number;
}

/**
 * Finds the shots and plays of a film. One decoding from end to end, in a worker, so that nothing else waits for it;
 * the film is only read.
 */
export function splitFilm(film: FilmProbe, options: SplitOptions): Promise<Result<Split, FilmProblem>> {
  const { tools, signal, onProgress } = options;
  const { path, table } = film;
  const timeLimitMs = options.timeLimitMs ?? 3_600_000 + 2000 * film.seconds;
  if (signal?.aborted) return Promise.resolve(fail(refusal('cancelled', path)));
  const order: SplitOrder = {
    path,
    tools,
    fps: rateNumber(table.rate),
    frames: frameCount(table),
    ptsMicros: table.ptsMicros,
    stops: stopsOf(table),
    timeLimitMs,
  };
  return new Promise((resolve) => {
    const worker = new Worker(new URL('./split-worker.mjs', import.meta.url), { execArgv: [] });
    const finish = (result: Result<Split, FilmProblem>) => {
      signal?.removeEventListener('abort', onAbort);
      void worker.terminate();
      resolve(result);
    };
    // the worker ends its decoder before it answers
    const onAbort = () => worker.postMessage('stop');
    signal?.addEventListener('abort', onAbort, { once: true });
    worker.on('message', (answer: SplitAnswer) => {
      if (answer.kind === 'progress') onProgress?.(answer.done);
      else if (answer.kind === 'split') finish(ok(answer.split));
      else if (answer.kind === 'cancelled') finish(fail(refusal('cancelled', path)));
      else if (answer.kind === 'failed') finish(fail(refusal('film-unreadable', path, answer.message)));
      else finish(fail(refusal('film-too-slow', path, `${Math.round(timeLimitMs / 1000)} s`)));
    });
    worker.on('error', (error) => finish(fail(refusal('film-unreadable', path, error.message))));
    worker.postMessage(order);
  });
}
