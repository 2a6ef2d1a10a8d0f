import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Dispatcher } from '../../../renderer/commands/dispatcher.ts';

let did: string[];
let dispatcher: Dispatcher;
const key = (repeat = false) => ({ code: 'KeyA', repeat });

beforeEach(() => {
  vi.useFakeTimers();
  did = [];
  dispatcher = new Dispatcher(
    {
      'film.back': { label: 'Back', group: 'Film', keys: ['a'] },
      'film.play': { label: 'Play', group: 'Film' },
    },
    false,
  );
  dispatcher.bind('film.back', 0, () => ({
    do: () => did.push('step'),
    hold: () => {
      did.push('run');
      return () => did.push('stop');
    },
  }));
  dispatcher.bind('film.play', 0, () => ({ do: () => did.push('play') }));
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a key that can be held', () => {
  it('is one step when it is tapped', () => {
    dispatcher.press('film.back', key());
    vi.advanceTimersByTime(90);
    dispatcher.release('KeyA');
    vi.advanceTimersByTime(2000);
    expect(did).toEqual(['step']);
  });

  it('runs while it is down, however fast the system repeats it, and stops once when it comes up', () => {
    dispatcher.press('film.back', key());
    for (let n = 0; n < 50; n++) {
      vi.advanceTimersByTime(30);
      dispatcher.press('film.back', key(true));
    }
    dispatcher.release('KeyD');
    expect(did).toEqual(['step', 'run']);
    dispatcher.release('KeyA');
    dispatcher.release('KeyA');
    expect(did).toEqual(['step', 'run', 'stop']);
  });

  it('stops when the window loses the keys', () => {
    dispatcher.press('film.back', key());
    vi.advanceTimersByTime(500);
    dispatcher.release();
    expect(did).toEqual(['step', 'run', 'stop']);
  });

  it('leaves other keys as they are: they repeat', () => {
    dispatcher.press('film.play', { code: 'KeyS', repeat: false });
    dispatcher.press('film.play', { code: 'KeyS', repeat: true });
    expect(did).toEqual(['play', 'play']);
  });
});
