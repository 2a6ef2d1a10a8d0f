import { spawn } from 'node:child_process';

/** How a program that we ran has ended. */
export interface RunEnd {
  readonly code: number | null;
  readonly stopped: 'no' | 'cancelled' | 'too-slow' | 'not-started';
  /** the last words on stderr, at most 64 kB */
  readonly errors: string;
}

export interface RunOptions {
  readonly signal?: AbortSignal;
  /** limit for the whole run, milliseconds */
  readonly timeLimitMs?: number;
  /** takes stdout as it comes; without it stdout is ignored */
  readonly onOutput?: (chunk: Buffer) => void;
}

const ERRORS_KEPT = 65_536;

/** Runs a program without a shell and without input, and never throws: the end says what happened. */
export function runProgram(
  program: string,
  args: readonly string[],
  options: RunOptions = {},
): Promise<RunEnd> {
  const { signal, timeLimitMs, onOutput } = options;
  return new Promise((resolve) => {
    if (signal?.aborted) {
      resolve({ code: null, stopped: 'cancelled', errors: '' });
      return;
    }
    let stopped: RunEnd['stopped'] = 'no';
    let errors = '';
    const child = spawn(program, args, {
      stdio: ['ignore', onOutput ? 'pipe' : 'ignore', 'pipe'],
      windowsHide: true,
    });
    const stop = (why: RunEnd['stopped']) => {
      if (stopped === 'no') stopped = why;
      child.kill('SIGKILL');
    };
    const onAbort = () => stop('cancelled');
    const timer = timeLimitMs === undefined ? undefined : setTimeout(() => stop('too-slow'), timeLimitMs);
    signal?.addEventListener('abort', onAbort, { once: true });
    const finish = (code: number | null) => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', onAbort);
      resolve({ code, stopped, errors });
    };
    child.stdout?.on('data', (chunk: Buffer) => onOutput?.(chunk));
    child.stderr?.on('data', (chunk: Buffer) => {
      errors = (errors + chunk.toString('utf8')).slice(-ERRORS_KEPT);
    });
    child.once('error', (error) => {
      if (child.pid === undefined) {
        stopped = 'not-started';
        errors = error.message;
        finish(null);
      }
    });
    child.once('close', (code) => finish(code));
  });
}

/** The last line that ffmpeg wrote, for a message; its address prefixes left out. */
export function lastWords(errors: string): string {
  const lines = errors.split(/\r?\n|\r/).filter((line) => line.trim() !== '');
  return (lines.at(-1) ?? 'no reason given').replace(/^\[[^\]]*\] */, '').trim();
}
