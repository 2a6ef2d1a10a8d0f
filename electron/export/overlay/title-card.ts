import { type FrameTable, rateNumber } from '../../film/frame-table.ts';
import type { ReelSegment } from '../reel-types.ts';
import { fitted, fontOf, paintWith } from './canvas.ts';

export interface TitleCard {
  readonly title: string;
  readonly lines: readonly string[];
  readonly seconds: number;
}

function wrapped(words: readonly string[], fits: (line: string) => boolean): string[] {
  const lines: string[] = [];
  for (const word of words) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** A segment that shows a card instead of film, at the rate of the film that it stands with. */
export function cardSegment({ title, lines, seconds }: TitleCard, beside: FrameTable): ReelSegment {
  const { rate } = beside;
  const frames = Math.max(1, Math.round(seconds * rateNumber(rate)));
  const micros = (frame: number) => Math.round((frame * 1e6 * rate.den) / rate.num);
  const card = paintWith(({ pen, width, height }) => {
    const size = Math.round(Math.min(height, width * 0.75) * 0.09);
    const room = width * 0.86;
    pen.fillStyle = '#0b0f16';
    pen.fillRect(0, 0, width, height);
    pen.textAlign = 'center';
    pen.font = fontOf(size, 700);
    const heads = wrapped(title.split(/\s+/), (line) => pen.measureText(line).width <= room).slice(0, 3);
    const total = heads.length * size * 1.2 + lines.length * size * 0.75;
    let y = (height - total) / 2 + size;
    pen.fillStyle = '#ffffff';
    for (const head of heads) {
      pen.fillText(fitted(pen, head, room), width / 2, y);
      y += size * 1.2;
    }
    pen.font = fontOf(size * 0.5, 500);
    pen.fillStyle = '#c9d3e0';
    for (const line of lines.slice(0, 6)) {
      pen.fillText(fitted(pen, line, room), width / 2, y);
      y += size * 0.75;
    }
  });
  return {
    path: '',
    inFrame: 0,
    outFrame: frames,
    title,
    card,
    table: {
      ptsMicros: Float64Array.from({ length: frames }, (_, frame) => micros(frame)),
      keyFrames: Uint32Array.of(0),
      endMicros: micros(frames),
      variable: false,
      rate,
      // the films decide the size of the reel
      width: 2,
      height: 2,
      rotation: 0,
      codec: 'card',
      container: 'none',
      hasAudio: false,
    },
  };
}
