import { Worker } from 'node:worker_threads';
import type { DecoderSetup } from './picture-facts.ts';
import type { Description, ListedFrames } from './shape-frames.ts';

/** What Mediabunny found in a file. `other`: a kind of file that it doesn't know. */
export type PacketLook =
  | {
      readonly kind: 'film';
      readonly trackId: number;
      readonly description: Description;
      readonly setup: DecoderSetup;
      /** of the first sound track, microseconds */
      readonly soundStart: number | null;
      readonly frames: ListedFrames | null;
    }
  | { readonly kind: 'no-picture' | 'other' | 'cancelled' | 'too-slow' }
  | { readonly kind: 'failed'; readonly message: string };

export interface PacketRequest {
  readonly path: string;
  /** `others`: leave out the packets of MP4 and MOV, whose tables are read in a faster way */
  readonly packets: 'others' | 'all';
}

const idle: Worker[] = [];
const KEPT_IDLE = 2;
const MEMORY_LIMIT_MB = 1024;

function takeWorker(): Worker {
  const known = idle.pop();
  if (known) return known;
  const worker = new Worker(new URL('./packets-worker.mjs', import.meta.url), {
    resourceLimits: { maxOldGenerationSizeMb: MEMORY_LIMIT_MB },
    // the loaders and reporters of the process have no place in it
    execArgv: [],
  });
  worker.on('error', () => forget(worker));
  return worker;
}

function forget(worker: Worker): void {
  const at = idle.indexOf(worker);
  if (at >= 0) idle.splice(at, 1);
}

/** Looks into a file in a worker. A worker that takes too long, or runs out of memory, is ended and replaced. */
export function lookAtPackets(
  request: PacketRequest,
  limits: { readonly signal?: AbortSignal; readonly timeLimitMs: number },
): Promise<PacketLook> {
  if (limits.signal?.aborted) return Promise.resolve({ kind: 'cancelled' });
  return new Promise((resolve) => {
    const worker = takeWorker();
    const onMessage = (look: PacketLook) => finish(look, true);
    const onError = (error: Error) => finish({ kind: 'failed', message: error.message }, false);
    const onExit = () => finish({ kind: 'failed', message: 'its reader ended' }, false);
    const onAbort = () => finish({ kind: 'cancelled' }, false);
    const timer = setTimeout(() => finish({ kind: 'too-slow' }, false), limits.timeLimitMs);
    const finish = (look: PacketLook, keep: boolean) => {
      clearTimeout(timer);
      limits.signal?.removeEventListener('abort', onAbort);
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      if (keep && idle.length < KEPT_IDLE) {
        idle.push(worker);
      } else {
        void worker.terminate();
      }
      resolve(look);
    };
    limits.signal?.addEventListener('abort', onAbort, { once: true });
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    // a worker that waits for work must not keep the program from ending; while it works, the timer does
    worker.unref();
    worker.postMessage(request);
  });
}
