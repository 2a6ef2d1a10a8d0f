import { Hono } from 'hono';
import { z } from 'zod';
import { answer, lineOf, playsBehind, table } from '../actions/answers.ts';
import { facets, whyNothing } from '../actions/facets.ts';
import { PICTURES, picture } from '../actions/pictures.ts';
import { pivot, pivotPlays } from '../actions/pivot.ts';
import { writePivot } from '../actions/pivot-sheets.ts';
import { questions, removeQuestion, renameQuestion, saveQuestion } from '../actions/questions.ts';
import { changeSituations, situations } from '../actions/situations.ts';
import type { Station } from '../station.ts';
import { clean } from './playbook.ts';
import { id, json } from './shapes.ts';

const where = z.string().max(20_000);
const metrics = z.array(z.string()).optional();

const limit = z.number().int().optional();
const limits = {
  backedUpFrom: limit,
  midfieldFrom: limit,
  fringeFrom: limit,
  redZoneFrom: limit,
  goalLineFrom: limit,
  shortTo: limit,
  mediumTo: limit,
  twoMinuteSeconds: limit,
};

const keyValue = z.union([z.string(), z.number(), z.boolean(), z.null()]);
const baseline = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('rest') }),
  z.object({ kind: z.literal('lastSeason') }),
  z.object({ kind: z.literal('opponent'), opponent: z.string() }),
  z.object({ kind: z.literal('question'), where }),
]);
const pivotShape = {
  where,
  rows: z.array(z.string()).min(1).max(3),
  cols: z.array(z.string()).max(2),
  metrics: z.array(z.string()),
  families: z.boolean(),
  baseline: baseline.nullable(),
};
const place = z.object({ row: z.array(keyValue).max(3), col: z.array(keyValue).max(2) });

export function askRoutes(station: Station) {
  return new Hono()
    .post('/answer', json({ where, metrics }), (c) => {
      const body = c.req.valid('json');
      return c.json(answer(station, body.where, body.metrics));
    })
    .post('/line', json({ playIds: z.array(id), metrics }), (c) => {
      const body = c.req.valid('json');
      return c.json(lineOf(station, body.playIds, body.metrics));
    })
    .post('/behind', json({ playIds: z.array(id), metric: z.string() }), (c) => {
      const { playIds, metric: key } = c.req.valid('json');
      return c.json({ playIds: playsBehind(station, playIds, key) });
    })
    .post(
      '/table',
      json({
        where,
        rows: z.string(),
        cols: z.string().nullish(),
        metrics,
        families: z.boolean().optional(),
      }),
      (c) => c.json(table(station, clean(c.req.valid('json')))),
    )
    .post('/pivot', json(pivotShape), (c) => c.json(pivot(station, c.req.valid('json'))))
    .get('/pictures', (c) => c.json(PICTURES.map(({ name, title }) => ({ name, title }))))
    .post('/pictures', json({ where, name: z.string() }), (c) => {
      const body = c.req.valid('json');
      return c.json(picture(station, body.where, body.name));
    })
    .post('/pivot/plays', json({ table: z.object(pivotShape), place }), (c) => {
      const body = c.req.valid('json');
      return c.json({ playIds: pivotPlays(station, body.table, body.place) });
    })
    .post('/pivot/export', json({ table: z.object(pivotShape), to: z.string().min(1) }), async (c) => {
      const body = c.req.valid('json');
      return c.json(await writePivot(station, body.table, body.to));
    })
    .get('/questions', (c) => c.json(questions(station)))
    .post('/questions', json({ name: z.string().min(1).max(200), where }), (c) => {
      const body = c.req.valid('json');
      return c.json(saveQuestion(station, body.name, body.where));
    })
    .post('/questions/:id/rename', json({ name: z.string().min(1).max(200) }), (c) =>
      c.json(renameQuestion(station, c.req.param('id'), c.req.valid('json').name)),
    )
    .post('/facets', json({ where, fields: z.array(z.string()).optional() }), (c) => {
      const body = c.req.valid('json');
      return c.json(facets(station, body.where, body.fields));
    })
    .get('/situations', (c) => c.json(situations(station)))
    .post('/situations', json(limits), (c) => c.json(changeSituations(station, clean(c.req.valid('json')))))
    .post('/why-nothing', json({ where }), (c) => c.json(whyNothing(station, c.req.valid('json').where)))
    .post('/questions/:id/remove', (c) => c.json(removeQuestion(station, c.req.param('id'))));
}
