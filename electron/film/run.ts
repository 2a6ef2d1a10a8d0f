import { spawn } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import type { Readable, Writable } from 'node:stream';

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
  readonly urgent?: boolean;
}

const ERRORS_KEPT = 65_536;

export interface Running {
  readonly input: Writable | null;
  readonly output: Readable | null;
  readonly ended: Promise<RunEnd>;
  /** ends the program at once */
  readonly stop: () => void;
}

export interface StartOptions {
  readonly signal?: AbortSignal;
  readonly timeLimitMs?: number;
  readonly takesInput?: boolean;
  readonly givesOutput?: boolean;
  /** takes the lines of stderr as they come */
  readonly onErrorLine?: (line: string) => void;
  /** somebody looks at the screen and waits for it; else it gives way to tagging */
  readonly urgent?: boolean;
}

/** Film programs use every core, and logging goes first. Where the system does not allow it, they run as they are. */
function giveWay(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    setPriority(pid, constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // it may have ended already
  }
}

/** Starts a program without a shell; `ended` never rejects: the end says what happened. */
export function startProgram(program: string, args: readonly string[], options: StartOptions = {}): Running {
  const { signal, timeLimitMs, onErrorLine } = options;
  if (signal?.aborted) {
    const ended = Promise.resolve<RunEnd>({ code: null, stopped: 'cancelled', errors: '' });
    return { input: null, output: null, ended, stop: () => {} };
  }
  const child = spawn(program, args, {
    stdio: [options.takesInput ? 'pipe' : 'ignore', options.givesOutput ? 'pipe' : 'ignore', 'pipe'],
    windowsHide: true,
  });
  if (!options.urgent) giveWay(child.pid);
  let stopped: RunEnd['stopped'] = 'no';
  let errors = '';
  let rest = '';
  const stop = (why: RunEnd['stopped']) => {
    if (stopped === 'no') stopped = why;
    child.kill('SIGKILL');
  };
  const ended = new Promise<RunEnd>((resolve) => {
    const onAbort = () => stop('cancelled');
    const timer = timeLimitMs === undefined ? undefined : setTimeout(() => stop('too-slow'), timeLimitMs);
    signal?.addEventListener('abort', onAbort, { once: true });
    const finish = (code: number | null) => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', onAbort);
      resolve({ code, stopped, errors });
    };
    // a program that ends early breaks the pipe to it; its end tells why
    child.stdin?.on('error', () => {});
    child.stderr?.on('data', (chunk: Buffer) => {
      const text = chunk.toString('utf8');
      errors = (errors + text).slice(-ERRORS_KEPT);
      if (!onErrorLine) return;
      const lines = (rest + text).split(/\r?\n|\r/);
      rest = lines.pop() ?? '';
      for (const line of lines) onErrorLine(line);
    });
    child.once('error', (error) => {
      if (child.pid !== undefined) return;
      stopped = 'not-started';
      errors = error.message;
      finish(null);
    });
    child.once('close', (code) => {
      if (rest !== '') onErrorLine?.(rest);
      finish(code);
    });
  });
  return { input: child.stdin, output: child.stdout, ended, stop: () => stop('cancelled') };
}

/** Runs a program to its end, without input. */
export function runProgram(
  program: string,
  args: readonly string[],
  options: RunOptions = {},
): Promise<RunEnd> {
  const { onOutput, ...rest } = options;
  const running = startProgram(program, args, { ...rest, givesOutput: onOutput !== undefined });
  if (onOutput) running.output?.on('data', onOutput);
  return running.ended;
}

/** The last line that ffmpeg wrote, for a message; its address prefixes left out. */
export function lastWords(errors: string): string {
  const lines = errors.split(/\r?\n|\r/).filter((line) => line.trim() !== '');
  return (lines.at(-1) ?? 'no reason given').replace(/^\[[^\]]*\] */, '').trim();
}
