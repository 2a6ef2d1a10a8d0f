import { Hono } from 'hono';
import { z } from 'zod';
import { MOMENT_KINDS } from '../../../football/play.ts';
import { lockClip } from '../actions/clip-lock.ts';
import { audit, box } from '../actions/game-book.ts';
import { completeLine, logPlay } from '../actions/log-line.ts';
import { playsByIds, playsOfGame } from '../actions/play-views.ts';
import {
  addPlay,
  redo,
  removeClip,
  removePlay,
  setClip,
  stampMoment,
  tagMany,
  tagPlay,
  undo,
} from '../actions/tags.ts';
import type { Station } from '../station.ts';
import { angle, fieldValue, filmTime, id, json } from './shapes.ts';

export function playRoutes(station: Station) {
  return new Hono()
    .get('/games/:gameId/audit', (c) => c.json(audit(station, c.req.param('gameId'))))
    .get('/games/:gameId/box', (c) => c.json(box(station, c.req.param('gameId'))))
    .get('/games/:gameId/plays', (c) => c.json(playsOfGame(station, c.req.param('gameId'))))
    .post('/plays/by-id', json({ playIds: z.array(id).max(200_000) }), (c) =>
      c.json(playsByIds(station, c.req.valid('json').playIds)),
    )
    .post('/plays', json({ gameId: id, after: id.nullish() }), (c) => {
      const { gameId, after } = c.req.valid('json');
      return c.json(addPlay(station, gameId, after ?? null));
    })
    .post('/plays/:playId/remove', (c) => c.json(removePlay(station, c.req.param('playId'))))
    .post(
      '/tags',
      json({
        playId: id,
        changes: z.array(z.object({ field: z.string(), value: fieldValue })).min(1),
        film: filmTime.nullish(),
        label: z.string().max(200).optional(),
      }),
      (c) => {
        const { label, film, ...rest } = c.req.valid('json');
        return c.json(tagPlay(station, { ...rest, film: film ?? null, ...(label ? { label } : {}) }));
      },
    )
    .post('/tags/many', json({ playIds: z.array(id), field: z.string(), value: fieldValue }), (c) => {
      const { playIds, field, value } = c.req.valid('json');
      return c.json(tagMany(station, playIds, field, value));
    })
    .post(
      '/log',
      json({
        playId: id,
        line: z.string().max(4000),
        film: filmTime.nullish(),
        newTerms: z.array(z.object({ field: z.string(), name: z.string().max(200) })).optional(),
      }),
      (c) => {
        const { newTerms, film, ...rest } = c.req.valid('json');
        return c.json(logPlay(station, { ...rest, film: film ?? null, ...(newTerms ? { newTerms } : {}) }));
      },
    )
    .post(
      '/log/complete',
      json({ playId: id, text: z.string().max(4000), cursor: z.number().int().nonnegative() }),
      (c) => {
        const { playId, text, cursor } = c.req.valid('json');
        return c.json({ suggestions: completeLine(station, playId, text, cursor) });
      },
    )
    .post(
      '/moments',
      json({
        playId: id,
        kind: z.enum(MOMENT_KINDS),
        filmId: id,
        frame: z.number().int().nonnegative().nullable(),
      }),
      async (c) => c.json(await stampMoment(station, c.req.valid('json'))),
    )
    .post(
      '/clips',
      json({
        playId: id,
        clipId: id.nullish(),
        filmId: id,
        angle,
        inFrame: z.number().int().nonnegative(),
        outFrame: z.number().int().positive(),
      }),
      (c) => {
        const { clipId, ...rest } = c.req.valid('json');
        return c.json(setClip(station, { ...rest, clipId: clipId ?? null }));
      },
    )
    .post(
      '/clips/:clipId/lock',
      json({
        lock: z
          .object({
            frame: z.number().int().nonnegative(),
            filmId: id,
            filmFrame: z.number().int().nonnegative(),
          })
          .nullable(),
      }),
      (c) => c.json(lockClip(station, c.req.param('clipId'), c.req.valid('json').lock)),
    )
    .post('/clips/:clipId/remove', (c) => c.json(removeClip(station, c.req.param('clipId'))))
    .post('/undo', (c) => c.json(undo(station)))
    .post('/redo', (c) => c.json(redo(station)));
}
