import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { ProblemError } from '../../football/result.ts';
import { EdgeKeeper } from './film/edge-keeper.ts';
import { sweepCache } from './film/sweep-cache.ts';
import { sayProblem } from './say.ts';
import { serveStation } from './server.ts';
import { openStation } from './station.ts';
import { defineWork } from './work.ts';

/**
 * The service as a process of its own: opens a library, serves it, and says where on standard output as one line of
 * JSON, `{"address": ..., "origin": ...}`. Ends on SIGTERM, SIGINT, or when the process that started it goes away.
 */
async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      library: { type: 'string' },
      renderer: { type: 'string' },
      port: { type: 'string' },
      person: { type: 'string' },
    },
  });
  if (!values.library) throw new Error('The service needs --library <file>.');
  const station = openStation(resolve(values.library), values.person ? { person: values.person } : {});
  defineWork(station);
  const service = await serveStation(station, {
    rendererFolder: values.renderer ? resolve(values.renderer) : null,
    ...(values.port ? { port: Number(values.port) } : {}),
  });
  sweepCache(station.library);
  station.jobs.resumeInterrupted();
  const edges = station.library.readOnly ? null : new EdgeKeeper(station);
  process.stdout.write(`${JSON.stringify({ address: service.address, origin: service.origin })}\n`);
  // the first question is answered at once when the columns are there before it is asked
  setTimeout(() => station.columns(), 50).unref();

  let closing = false;
  const close = async () => {
    if (closing) return;
    closing = true;
    await edges?.stop();
    await station.close();
    await service.close();
    process.exit(0);
  };
  process.on('SIGTERM', close);
  process.on('SIGINT', close);
  if (!process.stdin.isTTY) {
    process.stdin.on('end', close).on('close', close).resume();
  }
}

main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof ProblemError ? sayProblem(error.problem) : String(error)}\n`);
  process.exit(2);
});
