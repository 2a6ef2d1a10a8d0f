import { existsSync } from 'node:fs';
import { extname, join } from 'node:path';
import { serve } from '@hono/node-server';
import { serveStatic } from '@hono/node-server/serve-static';
import { Hono } from 'hono';
import { secureHeaders } from 'hono/secure-headers';
import { makeApi } from './api.ts';
import { guard, makeSecret } from './guard.ts';
import type { Station } from './station.ts';

export interface RunningService {
  /** without the secret */
  readonly origin: string;
  /** with the secret: opens the window once */
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Serves a station and its window on loopback, on a free port.
 * @param rendererFolder the built window; without it only the API answers
 */
export async function serveStation(
  station: Station,
  options: { rendererFolder?: string | null; port?: number; secret?: string } = {},
): Promise<RunningService> {
  const secret = options.secret ?? makeSecret();
  let host = '';
  const app = new Hono()
    .use(
      secureHeaders({
        contentSecurityPolicy: {
          defaultSrc: ["'self'"],
          // the component library writes its measures as style attributes and style elements
          styleSrc: ["'self'", "'unsafe-inline'"],
          imgSrc: ["'self'", 'data:', 'blob:'],
          mediaSrc: ["'self'", 'blob:'],
          fontSrc: ["'self'", 'data:'],
          workerSrc: ["'self'", 'blob:'],
          objectSrc: ["'none'"],
          baseUri: ["'none'"],
          formAction: ["'none'"],
          frameAncestors: ["'none'"],
        },
        crossOriginResourcePolicy: 'same-origin',
        referrerPolicy: 'no-referrer',
      }),
    )
    .use(guard(secret, () => host))
    .route('/', makeApi(station));
  const folder = options.rendererFolder;
  if (folder && existsSync(join(folder, 'index.html'))) {
    app.use('/assets/*', async (c, next) => {
      await next();
      c.header('Cache-Control', 'private, max-age=31536000, immutable');
    });
    app.get('*', serveStatic({ root: folder }));
    // a room's address typed or reloaded gets the window, which finds the room itself
    app.get('*', (c, next) =>
      extname(c.req.path) ? next() : serveStatic({ path: join(folder, 'index.html') })(c, next),
    );
  }
  return new Promise((resolve, reject) => {
    const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: options.port ?? 0 }, (info) => {
      host = `127.0.0.1:${info.port}`;
      resolve({
        origin: `http://${host}`,
        address: `http://${host}/?secret=${secret}`,
        close: () =>
          new Promise((done) => {
            server.close(() => done());
            if ('closeAllConnections' in server) server.closeAllConnections();
          }),
      });
    });
    server.once('error', reject);
  });
}
