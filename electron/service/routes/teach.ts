import { Hono } from 'hono';
import { z } from 'zod';
import { addToCutup, changeCutup, changeItem, cutupDetail, cutups, makeCutup } from '../actions/cutups.ts';
import { estimateCutup, exportFormat } from '../film/export-cutup.ts';
import type { Station } from '../station.ts';
import { clean } from './playbook.ts';
import { angle, id, json } from './shapes.ts';

const angles = z.array(angle).min(1).max(3);
const frames = z.tuple([z.number().int().nonnegative(), z.number().int().positive()]);

const choices = {
  quality: z.enum(['small', 'standard', 'fine']).optional(),
  size: z.enum(['source', '1080', '720', '540']).optional(),
  burn: z
    .array(z.enum(['tags', 'drawings']))
    .max(2)
    .optional(),
  fields: z.array(z.string().max(200)).max(12).nullish(),
  titleCard: z.boolean().optional(),
};

export function teachRoutes(station: Station) {
  return new Hono()
    .get('/cutups', (c) => c.json(cutups(station)))
    .post(
      '/cutups',
      json({
        name: z.string().max(200),
        where: z.string().nullish(),
        playIds: z.array(id).optional(),
        angles: angles.optional(),
      }),
      (c) => c.json(makeCutup(station, clean(c.req.valid('json')))),
    )
    .get('/cutups/:id', (c) => c.json(cutupDetail(station, c.req.param('id'))))
    .post(
      '/cutups/:id',
      json({
        name: z.string().max(200).optional(),
        note: z.string().max(10_000).nullish(),
        folder: z.string().max(200).nullish(),
        angles: angles.optional(),
        removed: z.boolean().optional(),
      }),
      (c) => c.json(changeCutup(station, c.req.param('id'), clean(c.req.valid('json')))),
    )
    .post('/cutups/:id/items', json({ playIds: z.array(id), after: id.nullish() }), (c) => {
      const { playIds, after } = c.req.valid('json');
      return c.json(addToCutup(station, c.req.param('id'), playIds, after ?? null));
    })
    .post(
      '/cutups/:id/items/:itemId',
      json({
        angles: angles.nullish(),
        trims: z
          .object({ sideline: frames.optional(), endzone: frames.optional(), other: frames.optional() })
          .optional(),
        note: z.string().max(10_000).nullish(),
        removed: z.boolean().optional(),
        after: id.nullish(),
      }),
      (c) => {
        const { trims, ...rest } = clean(c.req.valid('json'));
        return c.json(
          changeItem(station, c.req.param('id'), c.req.param('itemId'), {
            ...rest,
            ...(trims ? { trims: clean(trims) } : {}),
          }),
        );
      },
    )
    .post('/cutups/:id/estimate', json({ angles: angles.nullish(), ...choices }), async (c) => {
      const { angles: wanted, ...rest } = clean(c.req.valid('json'));
      return c.json(
        await estimateCutup(station, { cutupId: c.req.param('id'), angles: wanted ?? null, choices: rest }),
      );
    })
    .post(
      '/cutups/:id/export',
      json({ to: z.string().min(1).max(4000), angles: angles.nullish(), ...choices }),
      (c) => {
        const { to, angles: wanted, ...rest } = clean(c.req.valid('json'));
        const cutup = cutupDetail(station, c.req.param('id'));
        exportFormat(to);
        return c.json(
          station.jobs.start('export-cutup', `Write ${cutup.name}`, {
            cutupId: cutup.cutupId,
            to,
            angles: wanted ?? null,
            choices: rest,
          }),
        );
      },
    );
}
