import { Hono } from 'hono';
import { z } from 'zod';
import { answer, lineOf, playsBehind, table } from '../actions/answers.ts';
import { facets, whyNothing } from '../actions/facets.ts';
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
