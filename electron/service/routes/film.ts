import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import { z } from 'zod';
import { listGames } from '../../../db/repositories/games.ts';
import { ProblemError } from '../../../football/result.ts';
import { rateNumber } from '../../film/frame-table.ts';
import { filmViews, relinkFilm, relinkFolder } from '../actions/films.ts';
import { listFolder } from '../actions/folders.ts';
import { acceptProposals, proposalsOf } from '../actions/proposals.ts';
import { exportPlays } from '../actions/sheets/export.ts';
import { importSheet, mapFor } from '../actions/sheets/import.ts';
import { GIVEN_MAP, type SheetMap } from '../actions/sheets/mapping.ts';
import { openSheet, previewSheet } from '../actions/sheets/preview.ts';
import { dropProxy, proxyTable, startProxy } from '../film/proxies.ts';
import { filmOrProblem, frameTableOf } from '../film/shelf.ts';
import type { Station } from '../station.ts';
import type { FrameTimesView } from '../views.ts';
import { clean } from './playbook.ts';
import { angle, id, json } from './shapes.ts';

const path = z.string().min(1).max(4000);

const proposal = z.object({
  inFrame: z.number().int().nonnegative(),
  outFrame: z.number().int().positive(),
  snapFrame: z.number().int().nonnegative().nullable(),
  angle,
  play: z.number().int().positive(),
});

export function filmRoutes(station: Station) {
  return new Hono()
    .get('/films', (c) => c.json(filmViews(station)))
    .get(
      '/films/:filmId/frames',
      zValidator('query', z.object({ of: z.literal('proxy').optional() })),
      async (c) => {
        const filmId = c.req.param('filmId');
        const ofProxy = c.req.valid('query').of === 'proxy';
        const table = ofProxy
          ? proxyTable(station.library, filmId)
          : await frameTableOf(station.library, filmId);
        return c.json({
          filmId,
          ptsMicros: Array.from(table.ptsMicros),
          keyFrames: Array.from(table.keyFrames),
          fps: rateNumber(table.rate),
          variable: table.variable,
        } satisfies FrameTimesView);
      },
    )
    .post(
      '/films/add',
      json({
        paths: z.array(path).min(1),
        gameId: id.nullish(),
        gameTitle: z.string().max(200).nullish(),
        angle: angle.nullish(),
        onePlayPerFile: z.boolean(),
      }),
      (c) => {
        const body = c.req.valid('json');
        const gameTitle = titleOf(station, body.gameId, body.gameTitle);
        return c.json(
          station.jobs.start('add-films', `Bring film in to ${gameTitle}`, {
            paths: body.paths,
            gameTitle,
            angle: body.angle ?? null,
            onePlayPerFile: body.onePlayPerFile,
          }),
        );
      },
    )
    .post('/films/:filmId/proxy', (c) => c.json(startProxy(station, c.req.param('filmId'))))
    .delete('/films/:filmId/proxy', (c) => {
      dropProxy(station, c.req.param('filmId'));
      return c.json({ dropped: true });
    })
    .post('/films/:filmId/split', (c) => {
      const film = filmOrProblem(station.library, c.req.param('filmId'));
      return c.json(station.jobs.start('split-film', `Find the plays of ${film.name}`, { filmId: film.id }));
    })
    .get('/films/:filmId/proposals', (c) => c.json(proposalsOf(station, c.req.param('filmId'))))
    .post('/films/:filmId/accept', json({ proposals: z.array(proposal).max(5000) }), async (c) =>
      c.json(await acceptProposals(station, c.req.param('filmId'), c.req.valid('json').proposals)),
    )
    .post('/films/:filmId/relink', json({ path }), async (c) =>
      c.json(await relinkFilm(station, c.req.param('filmId'), c.req.valid('json').path)),
    )
    .post('/films/relink-folder', json({ folder: path }), async (c) =>
      c.json(await relinkFolder(station, c.req.valid('json').folder)),
    )
    .get('/folders', zValidator('query', z.object({ path: z.string().optional() })), (c) =>
      c.json(listFolder(c.req.valid('query').path ?? null)),
    )
    .post('/sheets/preview', json({ path, map: GIVEN_MAP.nullish() }), async (c) => {
      const body = c.req.valid('json');
      return c.json(previewSheet(station, await openSheet(body.path), sheetMap(body.map)));
    })
    .post(
      '/sheets/import',
      json({
        path,
        gameId: id.nullish(),
        gameTitle: z.string().max(200).nullish(),
        map: GIVEN_MAP.nullish(),
      }),
      async (c) => {
        const body = c.req.valid('json');
        const sheet = await openSheet(body.path);
        const gameTitle =
          body.gameId || body.gameTitle ? titleOf(station, body.gameId, body.gameTitle) : null;
        return c.json(
          importSheet(station, sheet, { map: mapFor(station, sheet, sheetMap(body.map)), gameTitle }),
        );
      },
    )
    .post(
      '/sheets/export',
      json({
        where: z.string().max(20_000).optional(),
        playIds: z.array(id).optional(),
        fields: z.array(z.string()).nullish(),
        to: path,
      }),
      async (c) => {
        const { where, playIds, fields, to } = c.req.valid('json');
        const rows = await exportPlays(station, {
          ...(playIds ? { playIds } : {}),
          ...(where !== undefined ? { where } : {}),
          fields: fields ?? null,
          to,
        });
        return c.json({ rows, path: to });
      },
    )
    .get('/jobs', (c) => c.json(station.jobs.list()))
    .post('/jobs/:jobId/cancel', (c) => c.json(station.jobs.cancel(c.req.param('jobId'))))
    .post('/jobs/:jobId/resume', (c) => c.json(station.jobs.resume(c.req.param('jobId'))));
}

function sheetMap(given: z.infer<typeof GIVEN_MAP> | null | undefined): Partial<SheetMap> | null {
  return given ? (clean(given) as Partial<SheetMap>) : null;
}

function titleOf(
  station: Station,
  gameId: string | null | undefined,
  title: string | null | undefined,
): string {
  if (gameId) {
    const game = listGames(station.library).find((g) => g.id === gameId);
    if (game) return game.title;
  }
  if (title?.trim()) return title.trim();
  throw new ProblemError({
    code: 'game-missing',
    message: 'No game was named.',
    kept: 'Nothing was changed.',
    next: 'Choose a game, or type the title of a new one.',
  });
}
