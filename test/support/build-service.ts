import { execFileSync } from 'node:child_process';

/** Once before all tests: those that run the program as a process of its own find it built from the sources as they are. */
export default function setup(): void {
  execFileSync(process.execPath, ['scripts/build.mjs', 'service'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
