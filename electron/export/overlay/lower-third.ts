import type { Paint } from '../reel-types.ts';
import { fitted, fontOf, paintWith } from './canvas.ts';

/** Tags of one play as they are burnt in: a heavy first line, and names with their values below. */
export interface LowerThird {
  readonly title: string;
  readonly tags: readonly { readonly name: string; readonly value: string }[];
}

/** Heights as parts of the picture's; a letter of a twentieth can be read from the back of a meeting room. */
const LINE = 0.05;
const EDGE = 0.04;

/** Light letters on a dark band along the lower edge: no meaning is carried by color. */
export function lowerThird({ title, tags }: LowerThird): Paint {
  return paintWith(({ pen, width, height }) => {
    const size = Math.max(10, Math.round(Math.min(height, width * 0.75) * LINE));
    const edge = Math.round(width * EDGE);
    const room = width - 2 * edge;
    const words = tags.filter(({ value }) => value !== '').map(({ name, value }) => `${name} ${value}`);
    const lines: string[] = [];
    pen.font = fontOf(size * 0.85, 500);
    for (const word of words) {
      const longer = lines.length > 0 ? `${lines.at(-1)}   ·   ${word}` : word;
      if (lines.length > 0 && pen.measureText(longer).width <= room) lines[lines.length - 1] = longer;
      else lines.push(word);
    }
    const shown = lines.slice(0, 2);
    const band = Math.round(size * (1.9 + 1.25 * shown.length));
    const top = height - band;
    pen.fillStyle = 'rgba(8, 12, 18, 0.78)';
    pen.fillRect(0, top, width, band);
    pen.fillStyle = '#ffffff';
    pen.font = fontOf(size, 700);
    pen.fillText(fitted(pen, title, room), edge, top + size * 1.25);
    pen.font = fontOf(size * 0.85, 500);
    for (const [at, line] of shown.entries()) {
      pen.fillText(fitted(pen, line, room), edge, top + size * (1.25 + 1.25 * (at + 1)));
    }
  });
}
