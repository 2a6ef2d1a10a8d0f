import { type ChildProcess, spawn } from 'node:child_process';

export interface ServiceProcess {
  /** opens the window once; holds the secret */
  readonly address: string;
  readonly origin: string;
  stop(): void;
}

/**
 * Starts the service as a Node process of its own. Its standard input stays open as long as this process lives, so
 * that it ends with us however we end.
 * @throws Error with what the service said when it could not start
 */
export function startService(
  node: string,
  args: readonly string[],
  onExit: (code: number | null) => void,
): Promise<ServiceProcess> {
  const child: ChildProcess = spawn(node, args, { stdio: ['pipe', 'pipe', 'pipe'] });
  let said = '';
  let complaint = '';
  return new Promise((resolve, reject) => {
    let started = false;
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      complaint = (complaint + text).slice(-2000);
      process.stderr.write(text);
    });
    child.stdout?.setEncoding('utf8').on('data', (text: string) => {
      if (started) return;
      said += text;
      const line = said.split('\n').find((l) => l.startsWith('{') && l.endsWith('}'));
      if (!line) return;
      started = true;
      const { address, origin } = JSON.parse(line) as { address: string; origin: string };
      resolve({ address, origin, stop: () => child.kill('SIGTERM') });
    });
    child.once('error', reject);
    child.once('exit', (code) => {
      if (started) onExit(code);
      else reject(new Error(complaint.trim() || `The service stopped with code ${code}.`));
    });
  });
}
