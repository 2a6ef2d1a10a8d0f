import { Hono } from 'hono';
import { z } from 'zod';
import {
  REPORT_KINDS,
  type ReportTemplate,
  SECTION_SHAPES,
  SECTION_SIDES,
} from '../../../football/report/template.ts';
import { cutReport, makeReport, reportTeams } from '../actions/report.ts';
import { copyTemplate, resetTemplate, saveTemplate, templates } from '../actions/report-templates.ts';
import type { Station } from '../station.ts';
import { clean } from './playbook.ts';
import { id, json } from './shapes.ts';

const name = z.string().max(200);
const request = {
  kind: z.enum(REPORT_KINDS),
  about: name.nullable(),
  template: id.nullish(),
};
const section = z.object({
  key: id,
  title: name.min(1),
  on: z.boolean(),
  shape: z.enum(SECTION_SHAPES),
  side: z.enum(SECTION_SIDES),
  where: z.string().max(20_000),
  rows: name,
  cols: name.nullable(),
  metrics: z.array(name).max(40),
  length: z.number().int().min(1).max(500),
});

export function reportRoutes(station: Station) {
  return new Hono()
    .get('/report/teams', (c) => c.json({ teams: reportTeams(station) }))
    .post('/report', json(request), (c) => c.json(makeReport(station, clean(c.req.valid('json')))))
    .post('/report/cutups', json({ ...request, sections: z.array(id).nullish() }), (c) => {
      const { sections, ...rest } = clean(c.req.valid('json'));
      return c.json(cutReport(station, rest, sections ?? null));
    })
    .post('/report/write', json({ ...request, to: z.string().min(1).max(4000), film: z.boolean() }), (c) => {
      const input = clean(c.req.valid('json'));
      // what cannot be made is said at once, not by a job that fails
      const { title } = makeReport(station, input);
      return c.json(station.jobs.start('write-report', `Write ${title}`, input));
    })
    .get('/report/templates', (c) => c.json(templates(station)))
    .post(
      '/report/templates',
      json({
        id,
        name,
        kind: z.enum(REPORT_KINDS),
        smallSample: z.number().int().min(1).max(1000),
        sections: z.array(section).max(100),
      }),
      (c) => c.json(saveTemplate(station, c.req.valid('json') as ReportTemplate)),
    )
    .post('/report/templates/:id/copy', json({ name: name.min(1) }), (c) =>
      c.json(copyTemplate(station, c.req.param('id'), c.req.valid('json').name)),
    )
    .post('/report/templates/:id/reset', (c) => c.json(resetTemplate(station, c.req.param('id'))));
}
