import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { MiddlewareHandler } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';

const COOKIE = 'tapebook';
const HEADER = 'x-tapebook-secret';

/** A secret for one launch; it opens this service until it stops and no other. */
export function makeSecret(): string {
  return randomBytes(24).toString('base64url');
}

function same(a: string, b: string): boolean {
  const left = Buffer.from(a);
  const right = Buffer.from(b);
  return left.length === right.length && timingSafeEqual(left, right);
}

/**
 * Lets in only the window that was given the address: Host must be this service's own (no name that points here by
 * DNS), Origin, where a browser sends one, must be this service's own, and every request must carry the secret. The
 * address carries it once; after that a cookie that no script and no other site can use does.
 */
export function guard(secret: string, host: () => string): MiddlewareHandler {
  return async (c, next) => {
    if (c.req.header('host') !== host()) return c.text('This is not the address of this service.', 421);
    const origin = c.req.header('origin');
    if (origin !== undefined && origin !== `http://${host()}`)
      return c.text('Another page may not ask this service.', 403);
    const asked = new URL(c.req.url);
    const inAddress = asked.searchParams.get('secret');
    if (inAddress !== null && c.req.method === 'GET' && same(inAddress, secret)) {
      // the port is part of the name, because cookies do not know ports and two stations may run side by side
      setCookie(c, cookieName(host()), secret, { httpOnly: true, sameSite: 'Strict', path: '/' });
      asked.searchParams.delete('secret');
      // two slashes at the front would name another machine
      return c.redirect(`${asked.pathname.replace(/^\/+/, '/')}${asked.search}`, 302);
    }
    const given = c.req.header(HEADER) ?? getCookie(c, cookieName(host()));
    if (given === undefined || !same(given, secret)) {
      return c.text('Open Tapebook with the address that it printed when it started.', 401);
    }
    return next();
  };
}

function cookieName(host: string): string {
  return `${COOKIE}-${host.split(':').at(-1) ?? ''}`;
}
