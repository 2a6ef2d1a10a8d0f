import { serveStatic } from '@hono/node-server/serve-static';
import { Hono } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { streamSSE } from 'hono/streaming';
import { type Problem, ProblemError } from '../../football/result.ts';
import { proxyPathOrProblem } from './film/proxies.ts';
import { filmPathOrProblem } from './film/shelf.ts';
import { stillPath } from './film/stills.ts';
import { askRoutes } from './routes/ask.ts';
import { filmRoutes } from './routes/film.ts';
import { playbookRoutes } from './routes/playbook.ts';
import { playRoutes } from './routes/plays.ts';
import { reportRoutes } from './routes/report.ts';
import { studyRoutes } from './routes/study.ts';
import { teachRoutes } from './routes/teach.ts';
import type { Station } from './station.ts';

/** All that a window may ask of a station, as one typed definition: the renderer's client is made of its type. */
export function makeApi(station: Station) {
  const api = new Hono()
    .route('/', playbookRoutes(station))
    .route('/', playRoutes(station))
    .route('/', askRoutes(station))
    .route('/', studyRoutes(station))
    .route('/', reportRoutes(station))
    .route('/', teachRoutes(station))
    .route('/', filmRoutes(station));
  const app = new Hono()
    .route('/api', api)
    .get('/api/events', (c) =>
      streamSSE(c, async (stream) => {
        const stop = station.onEvent((event) => void stream.writeSSE({ data: JSON.stringify(event) }));
        stream.onAbort(stop);
        await stream.writeSSE({ event: 'hello', data: '{}' });
        while (!stream.aborted && !stream.closed) {
          await stream.sleep(15_000);
          await stream.writeSSE({ event: 'beat', data: '{}' });
        }
        stop();
      }),
    )
    .get('/media/films/:filmId', (c, next) =>
      serveStatic({ path: filmPathOrProblem(station.library, c.req.param('filmId')) })(c, next),
    )
    .get('/media/films/:filmId/proxy', (c, next) =>
      serveStatic({ path: proxyPathOrProblem(station.library, c.req.param('filmId')) })(c, next),
    )
    .get('/media/stills/:filmId/:frame{[0-9]+\\.jpg}', async (c, next) => {
      const frame = Number.parseInt(c.req.param('frame'), 10);
      const path = await stillPath(station, c.req.param('filmId'), frame);
      c.header('Cache-Control', 'private, max-age=31536000, immutable');
      return serveStatic({ path })(c, next);
    });
  for (const path of ['/api/*', '/media/*']) {
    app.all(path, (c) => {
      const problem: Problem = {
        code: 'address-unknown',
        message: `The service has no ${c.req.method} ${c.req.path}.`,
        kept: 'Nothing was changed.',
      };
      return c.json({ problem }, 404);
    });
  }
  return app.onError((error, c) => {
    if (error instanceof ProblemError) return c.json({ problem: error.problem }, statusOf(error.problem));
    if (error instanceof HTTPException && error.status < 500) {
      const problem: Problem = {
        code: 'request-unfit',
        message: `The request cannot be read: ${error.message}.`,
        kept: 'Nothing was changed.',
      };
      return c.json({ problem }, 400);
    }
    const problem: Problem = {
      code: 'service-failed',
      message: `Something went wrong inside Tapebook: ${error.message}`,
      kept: 'What was saved before is kept; this step was not done.',
      next: 'Try again. If it fails again, note what you did and keep the library file.',
    };
    console.error(error);
    return c.json({ problem }, 500);
  });
}

export type Api = ReturnType<typeof makeApi>;

function statusOf(problem: Problem): 400 | 404 | 409 {
  if (problem.code.endsWith('-unknown') || problem.code === 'film-missing') return 404;
  return problem.code.endsWith('-exists') || problem.code === 'library-held' ? 409 : 400;
}
