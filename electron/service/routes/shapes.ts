import { zValidator } from '@hono/zod-validator';
import { z } from 'zod';

/** Shapes that several routes take; everything a window sends is checked here, at the border. */
export const id = z.string().min(1).max(400);

export const angle = z.enum(['sideline', 'endzone', 'other']);

export const filmTime = z.object({ filmId: id, frame: z.number().int().nonnegative() });

export const fieldValue = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('term'), termId: z.string(), name: z.string().min(1).max(200) }),
  z.object({ kind: z.literal('number'), number: z.number() }),
  z.object({ kind: z.literal('flag'), flag: z.boolean() }),
  z.object({ kind: z.literal('text'), text: z.string().max(10_000) }),
  z.object({
    kind: z.literal('player'),
    playerId: z.string().nullable(),
    number: z.number().int().min(0).max(99).nullable(),
    name: z.string().max(200).nullable(),
    team: z.string().max(200).nullable(),
  }),
  z.object({ kind: z.literal('clear') }),
]);

/** Validates a JSON body; a body that does not fit is answered as a problem that names the place. */
export function json<Shape extends z.ZodRawShape>(shape: Shape) {
  return zValidator('json', z.object(shape), (result, c) => {
    if (result.success) return;
    const [issue] = result.error.issues;
    const where = issue?.path.join('.') ?? '';
    return c.json(
      {
        problem: {
          code: 'request-unfit',
          message: `The request does not fit${where ? ` at ${where}` : ''}: ${issue?.message ?? 'unknown'}.`,
          kept: 'Nothing was changed.',
        },
      },
      400,
    );
  });
}
