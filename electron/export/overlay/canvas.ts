import { createRequire } from 'node:module';
import type { Canvas, SKRSContext2D } from '@napi-rs/canvas';
import { createCanvas, GlobalFonts } from '@napi-rs/canvas';
import type { Paint } from '../reel-types.ts';

const FAMILY = 'Tapebook Archivo';
/** The window's own type, which comes with the packages: the machine and its ffmpeg need none. */
const FILES = ['archivo-latin-wght-normal.woff2', 'archivo-latin-ext-wght-normal.woff2'];

let ready = false;

function loadFonts(): void {
  if (ready) return;
  const find = createRequire(import.meta.url);
  for (const [at, file] of FILES.entries()) {
    GlobalFonts.registerFromPath(
      find.resolve(`@fontsource-variable/archivo/files/${file}`),
      `${FAMILY} ${at}`,
    );
  }
  ready = true;
}

/** A font of that height in pixels, as a canvas names it. */
export function fontOf(pixels: number, weight: 500 | 700): string {
  return `${weight} ${pixels}px ${FILES.map((_, at) => `"${FAMILY} ${at}"`).join(', ')}`;
}

export interface Drawing {
  readonly pen: SKRSContext2D;
  readonly width: number;
  readonly height: number;
}

/** Draws on an empty picture of the reel's size. */
export function paintWith(draw: (drawing: Drawing) => void): Paint {
  return ({ width, height }) => {
    loadFonts();
    const canvas: Canvas = createCanvas(width, height);
    const pen = canvas.getContext('2d');
    draw({ pen, width, height });
    return pen.getImageData(0, 0, width, height).data;
  };
}

/** Shortens a text to a width, with an ellipsis where something is missing. */
export function fitted(pen: SKRSContext2D, text: string, width: number): string {
  if (pen.measureText(text).width <= width) return text;
  let end = text.length;
  while (end > 1 && pen.measureText(`${text.slice(0, end).trimEnd()}…`).width > width) end -= 1;
  return `${text.slice(0, end).trimEnd()}…`;
}
