import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { vi } from 'vitest';
import { run } from '../../electron/service/cli/main.ts';

export interface Said {
  readonly exit: number | null;
  readonly out: string;
  readonly err: string;
  /** what stands on standard output, which with --json is JSON and nothing else */
  json<T>(): T;
}

/** Runs a command of Tapebook as a process of its own, as a script would. */
export function tapebook(args: readonly string[], cwd = process.cwd()): Promise<Said> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(process.cwd(), 'scripts/tapebook.mjs'), ...args], {
      cwd,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (exit) => resolve(said(exit, out, err)));
  });
}

/** The same command within the test's own process: for the many that only differ in what they refuse. */
export async function tapebookHere(args: readonly string[]): Promise<Said> {
  const parts = { out: '', err: '' };
  const listen = (to: 'out' | 'err') => (text: string | Uint8Array) => {
    parts[to] += String(text);
    return true;
  };
  const out = vi.spyOn(process.stdout, 'write').mockImplementation(listen('out'));
  const err = vi.spyOn(process.stderr, 'write').mockImplementation(listen('err'));
  try {
    return said(await run(args), parts.out, parts.err);
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
}

function said(exit: number | null, out: string, all: string): Said {
  // a program whose sources were changed says first that it is built anew
  const err = all.replace(/^Building the service \.\.\.\n/, '');
  return { exit, out, err, json: <T>() => JSON.parse(out) as T };
}
