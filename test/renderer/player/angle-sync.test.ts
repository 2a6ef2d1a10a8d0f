import { describe, expect, it } from 'vitest';
import {
  type AngleSide,
  beyondMate,
  mateFrameAt,
  syncAngles,
  timecodeSeconds,
} from '../../../renderer/player/angle-sync.ts';

const film = (fps: number, count = 600, firstMicros = 0) => ({
  ptsMicros: Array.from({ length: count }, (_, n) => firstMicros + Math.round((n * 1e6) / fps)),
  fps,
});
const side = (filmId: string, more: Partial<AngleSide> = {}): AngleSide => ({
  filmId,
  inFrame: 0,
  outFrame: 600,
  lock: null,
  snapFrame: null,
  startTimecode: null,
  ...more,
});

describe('two angles of a play', () => {
  it('are held together by hand before all else, from whichever side it was set', () => {
    const lead = film(30);
    const mate = film(30);
    const a = side('a', { snapFrame: 100, lock: { frame: 50, filmId: 'b', filmFrame: 58 } });
    const b = side('b', { snapFrame: 90 });
    expect(mateFrameAt(syncAngles(a, lead, b, mate), lead, 60, mate)).toBe(68);
    expect(mateFrameAt(syncAngles(b, mate, a, lead), mate, 68, lead)).toBe(60);
    expect(syncAngles(a, lead, b, mate).by).toBe('hand');
  });

  it('are held by the snap where it is stamped on both, at whatever rates they were filmed', () => {
    const lead = film(30);
    const mate = film(60000 / 1001, 1200, 83_333);
    const sync = syncAngles(side('a', { snapFrame: 60 }), lead, side('b', { snapFrame: 200 }), mate);
    expect(sync.by).toBe('snap');
    expect(mateFrameAt(sync, lead, 60, mate)).toBe(200);
    expect(mateFrameAt(sync, lead, 90, mate)).toBe(260);
    expect(mateFrameAt(sync, lead, 30, mate)).toBe(140);
  });

  it('are held by time code where both films carry one that can be meant', () => {
    const lead = film(30);
    const mate = film(30);
    const at = (code: string, inFrame: number) => ({ startTimecode: code, inFrame });
    const sync = syncAngles(side('a', at('01:00:00:00', 0)), lead, side('b', at('00:59:59:15', 10)), mate);
    expect(sync.by).toBe('timecode');
    expect(mateFrameAt(sync, lead, 0, mate)).toBe(15);
    const other = syncAngles(side('a', at('01:00:00:00', 0)), lead, side('b', at('07:10:00:00', 10)), mate);
    expect([other.by, mateFrameAt(other, lead, 0, mate)]).toEqual(['order', 10]);
  });

  it('start together where nothing else is known', () => {
    const sync = syncAngles(side('a', { inFrame: 40 }), film(30), side('b', { inFrame: 7 }), film(30));
    expect([sync.by, mateFrameAt(sync, film(30), 50, film(30))]).toEqual(['order', 17]);
  });

  it('say when one camera was not running yet, or no longer', () => {
    const sync = syncAngles(
      side('a', { snapFrame: 10 }),
      film(30),
      side('b', { snapFrame: 5 }),
      film(30, 100),
    );
    expect([0, 4, 5, 50, 104, 120].map((f) => beyondMate(sync, film(30), f, film(30, 100)))).toEqual([
      true,
      false,
      false,
      false,
      false,
      true,
    ]);
  });
});

describe('a time code', () => {
  // drop frame: ten minutes of 29.97 are 17,982 frames (SMPTE ST 12-1, from memory; 17,982 / 29.97 = 600)
  it.each([
    ['00:00:10:15', 30, 10.5],
    ['00:10:00;00', 30000 / 1001, (17_982 * 1001) / 30_000],
    ['00:01:00;02', 30000 / 1001, (1800 * 1001) / 30_000],
    ['00:10:00;00', 60000 / 1001, (35_964 * 1001) / 60_000],
    ['00:00:01:00', 30000 / 1001, 1.001],
  ])('%s at %f is %f seconds', (code, fps, seconds) => {
    expect(timecodeSeconds(code, fps)).toBeCloseTo(seconds, 6);
  });

  it('that cannot be read is none', () => {
    expect([null, '', '1:2:3', 'ab:cd:ef:gh'].map((code) => timecodeSeconds(code, 30))).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
