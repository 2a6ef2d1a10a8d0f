/**
 * Walks film in the real window and reads off the pixels which frame is on the screen. Runs inside the page, so it stands
 * alone: nothing from outside of it may be used in it.
 */
export interface WalkOrder {
  /** frames to jump to, in order */
  readonly jumps: readonly number[];
  /** steps each way by key, after a jump to the middle */
  readonly steps: number;
  /** number on the film's frame 0; below 0: as read off it */
  readonly first: number;
  readonly turned: boolean;
}

export interface WalkReport {
  readonly frames: number;
  readonly asked: number;
  /** what was wrong, in words; the first few */
  readonly wrong: readonly string[];
  readonly wrongCount: number;
  /** milliseconds from the key until the picture was drawn, a step each, both ways */
  readonly stepMs: readonly number[];
  /** milliseconds from the key until the frame in which the picture was painted was over */
  readonly paintMs: readonly number[];
  readonly jumpMs: readonly number[];
  /** pictures that came from the cache of decoded frames, of all that were asked for */
  readonly fromCache: number;
  /** width over height of what is shown */
  readonly shape: number;
}

export async function walkFilm(order: WalkOrder): Promise<WalkReport> {
  const label = document.querySelector<HTMLElement>('[data-testid="film-frame"]')!;
  const slider = document.querySelector<HTMLInputElement>('input[type="range"]')!;
  const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!;
  const paper = document.createElement('canvas');
  const pen = paper.getContext('2d', { willReadFrequently: true })!;
  const frames = Number(slider.max) + 1;
  const wrong: string[] = [];
  let wrongCount = 0;
  let asked = 0;
  /** frames that never came; after two of them the rest is not waited for */
  let stuck = 0;
  let fromCache = 0;

  const shown = (): HTMLCanvasElement | HTMLVideoElement => {
    const root = document.querySelector('.film-element[data-place="lead"]')!;
    const canvas = root.querySelector('canvas')!;
    return canvas.hidden ? root.querySelector('video')! : canvas;
  };
  const numberShown = (): number | null => {
    const picture = shown();
    paper.width = 160;
    paper.height = 96;
    pen.setTransform(1, 0, 0, 1, 0, 0);
    // a picture on its side is read with the head turned
    if (order.turned) pen.setTransform(0, -1, 1, 0, 0, 96);
    pen.drawImage(picture, 0, 0, order.turned ? 96 : 160, order.turned ? 160 : 96);
    const pixels = pen.getImageData(0, 0, 160, 96).data;
    let number = 0;
    for (let bit = 0; bit < 16; bit++) {
      const x = (bit % 8) * 20 + 10;
      const y = Math.floor(bit / 8) * 24 + 12;
      const on = pixels[(y * 160 + x) * 4]! >= 128;
      // the lower half says the same inverted, so that a blend of two frames is seen
      const off = pixels[((y + 48) * 160 + x) * 4]! >= 128;
      if (on === off) return null;
      number = number * 2 + (on ? 1 : 0);
    }
    return number;
  };
  const until = (holds: () => boolean) =>
    new Promise<boolean>((resolve) => {
      const start = performance.now();
      const look = () => {
        if (holds()) resolve(true);
        else if (performance.now() - start > 6000 || stuck > 1) resolve(false);
        else setTimeout(look, 0);
      };
      look();
    });
  const drawn = (frame: number) => {
    const picture = shown();
    return (
      label.dataset.frame === String(frame) &&
      (!(picture instanceof HTMLCanvasElement) || picture.dataset.frame === String(frame))
    );
  };
  let first = order.first;
  const check = async (frame: number, how: string) => {
    asked++;
    const came = await until(() => drawn(frame));
    // a video element paints when it likes; a canvas is read as it stands
    if (!(shown() instanceof HTMLCanvasElement))
      await new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)));
    else fromCache++;
    const number = numberShown();
    if (first < 0 && number !== null) first = number - frame;
    if (!came) stuck++;
    if (came && number === first + frame && label.textContent === `frame ${frame}`) return;
    wrongCount++;
    if (wrong.length < 5) {
      const says = label.textContent;
      const words = document.querySelector('[data-film-screen]')?.parentElement?.textContent ?? '';
      wrong.push(
        `${how} to ${frame}: shows ${number === null ? 'no number' : number - first}, says ${says} ${words}`,
      );
    }
  };
  const painted = () =>
    new Promise<void>((resolve) => {
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => resolve();
        channel.port2.postMessage(null);
      });
    });
  const key = (type: 'keydown' | 'keyup', code: string, text: string) =>
    (document.activeElement ?? document.body).dispatchEvent(
      new KeyboardEvent(type, { code, key: text, bubbles: true, cancelable: true }),
    );
  const jump = (frame: number) => {
    setValue.call(slider, String(frame));
    slider.dispatchEvent(new Event('input', { bubbles: true }));
  };

  const jumpMs: number[] = [];
  for (const frame of order.jumps) {
    const start = performance.now();
    jump(frame);
    await check(frame, 'jump');
    jumpMs.push(performance.now() - start);
  }
  const stepMs: number[] = [];
  const paintMs: number[] = [];
  const middle = Math.floor((frames - order.steps) / 2);
  jump(middle);
  await check(middle, 'jump');
  // what is prefetched on both sides is what is measured
  await new Promise((next) => setTimeout(next, 700));
  for (const [code, text, by] of [
    ['KeyD', 'd', 1],
    ['KeyA', 'a', -1],
  ] as const) {
    for (let step = 0; step < order.steps; step++) {
      const from = Number(label.dataset.frame);
      const start = performance.now();
      key('keydown', code, text);
      key('keyup', code, text);
      await until(() => drawn(from + by));
      stepMs.push(performance.now() - start);
      if (step % 10 === 0) {
        await painted();
        paintMs.push(performance.now() - start);
      }
      await check(from + by, by === 1 ? 'step on' : 'step back');
    }
  }
  const picture = shown();
  const shape =
    picture instanceof HTMLCanvasElement
      ? picture.width / picture.height
      : picture.videoWidth / picture.videoHeight;
  return { frames, asked, wrong, wrongCount, stepMs, paintMs, jumpMs, fromCache, shape };
}

/** Frames to jump to: from one end to the other and at random, the same each time. */
export function jumpList(frames: number, count: number): number[] {
  let seed = 7;
  const random = () => {
    seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
    return seed / 0x7fffffff;
  };
  const list = [0, frames - 1, 1, frames - 2];
  while (list.length < count) list.push(Math.floor(random() * frames));
  return list.slice(0, count);
}
