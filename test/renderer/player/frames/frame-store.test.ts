import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FrameStore, type Heading } from '../../../../renderer/player/frames/frame-store.ts';
import { nextPiece, reachOf } from '../../../../renderer/player/frames/plan.ts';

const MB = 1024 * 1024;
/** A 720p picture as a decoder gives it: 12 bits a pixel. */
const PICTURE_720P = 1280 * 720 * 1.5;
const PICTURE_1080P = 1920 * 1080 * 1.5;

/** Pictures that know how many of them are open. */
function pictures(bytes: number) {
  const open = new Set<object>();
  return {
    open,
    make: () => {
      const picture = {
        bytes,
        close: () => {
          if (!open.delete(picture)) throw new Error('closed twice');
        },
      };
      open.add(picture);
      return picture;
    },
  };
}

describe('the store of decoded frames', () => {
  it('never holds more bytes than its bound, and closes every picture that it does not hold', () => {
    const walks = fc.array(
      fc.record({
        at: fc.integer({ min: 0, max: 999 }),
        direction: fc.constantFrom<Heading['direction']>(-1, 0, 1),
        put: fc.array(fc.integer({ min: 0, max: 999 }), { maxLength: 40 }),
        limit: fc.integer({ min: 0, max: 60 }),
      }),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(walks, (walk) => {
        const { open, make } = pictures(MB);
        const store = new FrameStore(20 * MB);
        for (const { at, direction, put, limit } of walk) {
          store.aim({ at, direction }, reachOf(direction, limit));
          store.setLimit(limit * MB);
          for (const frame of put) {
            store.put(frame, make());
            expect(store.bytes).toBeLessThanOrEqual(limit * MB);
          }
          expect(open.size).toBe(store.size);
          expect(store.bytes).toBe(store.size * MB);
        }
        store.clear();
        expect(open.size).toBe(0);
      }),
    );
  });

  it('gives up what lies farthest from where the film stands', () => {
    const { make } = pictures(MB);
    const store = new FrameStore(3 * MB);
    store.aim({ at: 10, direction: 0 }, { up: 5, down: 5 });
    for (const frame of [10, 12, 14, 9]) store.put(frame, make());
    expect([9, 10, 12, 14].map((frame) => store.has(frame))).toEqual([true, true, true, false]);
    expect(store.put(15, make())).toBe(false);
  });

  it('keeps what is ahead rather than what is behind while the film runs', () => {
    const { make } = pictures(MB);
    const store = new FrameStore(2 * MB);
    store.aim({ at: 10, direction: -1 }, { up: 5, down: 9 });
    for (const frame of [10, 13, 4]) store.put(frame, make());
    expect([4, 10, 13].map((frame) => store.has(frame))).toEqual([true, true, false]);
  });
});

interface Film {
  readonly count: number;
  readonly gop: number;
  readonly bytes: number;
  readonly limit: number;
}

/**
 * A film that decodes so many frames for each one shown, in the order of the film, as a decoder does: what comes before the
 * wanted frame in its group is decoded on the way.
 */
function player({ count, gop, bytes, limit }: Film) {
  const { open, make } = pictures(bytes);
  const store = new FrameStore(limit);
  let heading: Heading = { at: 0, direction: 0 };
  let running: number | null = null;
  let work: { next: number; to: number; closed: boolean } | null = null;
  let decoded = 0;
  let most = 0;
  const room = Math.floor(limit / bytes);
  const keyBefore = (frame: number) => frame - (frame % gop);
  return {
    store,
    open,
    decoded: () => decoded,
    most: () => most,
    aim(at: number, direction: Heading['direction']) {
      heading = { at, direction };
      store.aim(heading, reachOf(direction, room));
    },
    /** decodes up to so many frames; false when there is nothing to do */
    spend(frames: number): boolean {
      for (let left = frames; left > 0; left--) {
        if (!work) {
          const piece = nextPiece({ ...heading, count, room, has: (f) => store.has(f), keyBefore, running });
          if (!piece) return false;
          const goesOn: boolean =
            running !== null && running <= piece.from && keyBefore(piece.from) <= running;
          work = { next: goesOn ? running! : keyBefore(piece.from), to: piece.to, closed: piece.closed };
        }
        store.put(work.next, make());
        decoded++;
        most = Math.max(most, store.bytes);
        work.next++;
        running = work.next;
        if (work.next <= work.to) continue;
        if (work.closed) running = null;
        work = null;
      }
      return true;
    },
  };
}

const FILMS: [string, Film][] = [
  ['720p, a key frame every 30', { count: 3000, gop: 30, bytes: PICTURE_720P, limit: 480 * MB }],
  ['720p, a key frame every 250', { count: 3000, gop: 250, bytes: PICTURE_720P, limit: 480 * MB }],
  ['720p beside another angle, every 250', { count: 3000, gop: 250, bytes: PICTURE_720P, limit: 240 * MB }],
  ['1080p, a key frame every 60', { count: 3000, gop: 60, bytes: PICTURE_1080P, limit: 480 * MB }],
  ['key frames only', { count: 3000, gop: 1, bytes: PICTURE_720P, limit: 480 * MB }],
];

describe.each(FILMS)('what is decoded ahead on %s', (_, film) => {
  it('has every frame there in time, backwards, at seven frames decoded for one shown', () => {
    const it = player(film);
    it.aim(1500, -1);
    while (it.spend(200));
    let late = 0;
    for (let at = 1500; at > 1200; at--) {
      it.aim(at, -1);
      if (!it.store.has(at)) late++;
      it.spend(7);
    }
    expect(late).toBeLessThanOrEqual(3);
    expect(it.most()).toBeLessThanOrEqual(film.limit);
  });

  it('comes to rest when enough is there, both ways of standing and running', () => {
    for (const direction of [0, 1, -1] as const) {
      for (const at of [0, 1, 250, 1499, 2998, 2999]) {
        const it = player(film);
        it.aim(at, direction);
        let spent = 0;
        while (it.spend(100)) {
          spent += 100;
          expect(spent).toBeLessThan(3000);
        }
        expect(it.store.has(at)).toBe(true);
      }
    }
  });

  it('has single steps ready on both sides, wherever a random jump went', () => {
    const it = player(film);
    for (const at of [17, 2040, 999, 1000, 1001, 500, 2999, 0]) {
      it.aim(at, 0);
      while (it.spend(200));
      for (const near of [-5, -1, 1, 5]) {
        const frame = at + near;
        if (frame >= 0 && frame < film.count)
          expect([at, near, it.store.has(frame)]).toEqual([at, near, true]);
      }
    }
    expect(it.open.size).toBe(it.store.size);
  });
});
