import { Hono } from 'hono';
import { z } from 'zod';
import { METRICS } from '../../../football/metrics/definitions.ts';
import { SUCCESS_VARIANTS, settingInWords } from '../../../football/metrics/settings.ts';
import { addGame, games } from '../actions/games.ts';
import { libraryView } from '../actions/library.ts';
import {
  addField,
  addTerm,
  changeTerm,
  setPlayer,
  setReadRule,
  vocabularyView,
} from '../actions/playbook.ts';
import { changeSettings, settings } from '../actions/settings.ts';
import type { Station } from '../station.ts';
import { json } from './shapes.ts';

const text = z.string().max(200);
const player = {
  number: z.number().int().min(0).max(99).nullish(),
  name: text.nullish(),
  position: text.nullish(),
  team: text.nullish(),
};
const rule = {
  concept: text.optional(),
  keyDefender: text.nullish(),
  whenKey: text.nullish(),
  goTo: text.nullish(),
  note: z.string().max(2000).nullish(),
};

export function playbookRoutes(station: Station) {
  return new Hono()
    .get('/library', (c) => c.json(libraryView(station)))
    .get('/vocabulary', (c) => c.json(vocabularyView(station)))
    .get('/metrics', (c) => {
      const chosen = settings(station);
      return c.json(
        METRICS.map(({ key, name, kind, formula, per, unit, decimals, source, caution, setting }) => ({
          key,
          name,
          kind,
          // the choice in use stands wherever the definition does
          formula: setting ? `${formula} (${settingInWords(setting, chosen)})` : formula,
          per: per ?? null,
          unit,
          decimals,
          source,
          caution,
        })),
      );
    })
    .get('/settings', (c) => c.json(settings(station)))
    .post(
      '/settings',
      json({
        success: z.enum(SUCCESS_VARIANTS).optional(),
        explosiveRunYards: z.number().int().min(1).max(99).optional(),
        explosivePassYards: z.number().int().min(1).max(99).optional(),
      }),
      (c) => c.json(changeSettings(station, clean(c.req.valid('json')))),
    )
    .get('/games', (c) => c.json(games(station)))
    .post(
      '/games',
      json({
        title: text,
        season: z.number().int().nullish(),
        week: z.number().int().nullish(),
        date: z.iso.date().nullish(),
        opponent: text.nullish(),
      }),
      (c) => c.json(addGame(station, clean(c.req.valid('json')) as { title: string })),
    )
    .post(
      '/fields',
      json({
        key: text,
        label: text,
        kind: z.enum(['term', 'number', 'text', 'player', 'flag']),
        help: text.optional(),
        unit: text.optional(),
      }),
      (c) => {
        addField(station, clean(c.req.valid('json')) as Parameters<typeof addField>[1]);
        return c.json(vocabularyView(station));
      },
    )
    .post(
      '/terms',
      json({ field: text, name: text, parent: text.nullish(), aliases: z.array(text).optional() }),
      (c) => {
        const { field, name, ...more } = c.req.valid('json');
        return c.json(addTerm(station, field, name, clean(more)));
      },
    )
    .post(
      '/terms/:id',
      json({
        name: text.optional(),
        parent: text.nullish(),
        aliases: z.array(text).optional(),
        removed: z.boolean().optional(),
      }),
      (c) => c.json(changeTerm(station, c.req.param('id'), clean(c.req.valid('json')))),
    )
    .post('/players', json(player), (c) => c.json(setPlayer(station, null, clean(c.req.valid('json')))))
    .post('/players/:id', json({ ...player, removed: z.boolean().optional() }), (c) =>
      c.json(setPlayer(station, c.req.param('id'), clean(c.req.valid('json')))),
    )
    .post('/read-rules', json(rule), (c) => c.json(setReadRule(station, null, clean(c.req.valid('json')))))
    .post('/read-rules/:id', json({ ...rule, removed: z.boolean().optional() }), (c) =>
      c.json(setReadRule(station, c.req.param('id'), clean(c.req.valid('json')))),
    );
}

type Clean<T> = { [K in keyof T]: Exclude<T[K], undefined> };

/** Drops keys that were not sent, so that "not said" and "said to be nothing" stay apart. */
export function clean<T extends Record<string, unknown>>(body: T): Clean<T> {
  return Object.fromEntries(Object.entries(body).filter(([, v]) => v !== undefined)) as Clean<T>;
}
