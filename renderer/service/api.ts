import { hc } from 'hono/client';
import type { Api } from '../../electron/service/api.ts';
import { send } from './http.ts';

/** The service's routes, typed by the service's own definition: a route that is not there does not compile. */
export const { api } = hc<Api>('/', { fetch: send });

interface Reply {
  readonly status: number;
  json(): Promise<unknown>;
}

/** What a reply holds when it is no refusal; a refusal never comes back, `send` has thrown it. */
type Answer<R extends Reply> = R extends { readonly status: 400 } ? never : Awaited<ReturnType<R['json']>>;

/** The JSON of an answer. */
export async function answer<R extends Reply>(reply: Promise<R>): Promise<Answer<R>> {
  return (await (await reply).json()) as Answer<R>;
}
