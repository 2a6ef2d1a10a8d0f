import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { ROOT, serviceArguments } from './stations.ts';

/** Starts the shell with a debugging port of its own choosing, and says the port. */
export function startShell(
  electron: string,
  library: string,
  on: string,
): Promise<{ child: ChildProcess; port: string }> {
  const child = spawn(
    electron,
    ['--no-sandbox', '--remote-debugging-port=0', join(ROOT, 'dist/shell/main.cjs')],
    {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: {
        ...process.env,
        DISPLAY: on,
        TAPEBOOK_NODE: process.execPath,
        TAPEBOOK_SERVICE: JSON.stringify(serviceArguments(library)),
      },
    },
  );
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      const port = /DevTools listening on ws:\/\/127\.0\.0\.1:(\d+)/.exec(said)?.[1];
      if (port) resolve({ child, port });
    });
    child.once('exit', (code) =>
      reject(new Error(`The shell stopped with code ${code}: ${said.slice(-500)}`)),
    );
  });
}

export async function endShell(shell: ChildProcess | null): Promise<void> {
  if (!shell) return;
  const ended = new Promise((done) => shell.once('exit', done));
  shell.kill('SIGTERM');
  await Promise.race([ended, new Promise((done) => setTimeout(done, 5000))]);
  shell.kill('SIGKILL');
}
