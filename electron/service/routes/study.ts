import { Hono } from 'hono';
import { z } from 'zod';
import { teamsOf } from '../actions/called-plays.ts';
import { reads } from '../actions/reads.ts';
import { sideChanges } from '../actions/side-changes.ts';
import { callsNow, tells, tendencies } from '../actions/tendencies.ts';
import type { Station } from '../station.ts';
import { json } from './shapes.ts';

const name = z.string().max(200);
const names = z.array(name).max(12);
const whose = {
  team: name,
  side: z.enum(['offense', 'defense']),
  families: z.boolean(),
  contexts: names,
  where: z.string().max(20_000),
};

/** What a team calls, and what gives it away. */
export function studyRoutes(station: Station) {
  return new Hono()
    .get('/teams', (c) => c.json({ ours: station.team, teams: teamsOf(station) }))
    .post('/tendencies', json({ ...whose, call: name }), (c) =>
      c.json(tendencies(station, c.req.valid('json'))),
    )
    .post('/reads', json({ team: name, where: whose.where }), (c) =>
      c.json(reads(station, c.req.valid('json'))),
    )
    .post('/side-changes', json({ where: whose.where }), (c) =>
      c.json(sideChanges(station, c.req.valid('json').where)),
    )
    .post('/tendencies/now', json({ ...whose, calls: names, given: z.string().max(500) }), (c) =>
      c.json(callsNow(station, c.req.valid('json'))),
    )
    .post(
      '/tendencies/tells',
      json({ ...whose, call: name, withinSituation: z.boolean(), pairs: z.boolean() }),
      (c) => c.json(tells(station, c.req.valid('json'))),
    );
}
