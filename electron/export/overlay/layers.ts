import type { PlannedSegment } from '../reel-plan.ts';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** A drawn picture in the encoder's own planes, cut down to the rectangle that is not empty. */
export interface Layer {
  readonly fromFrame: number;
  readonly toFrame: number;
  /** even numbers, as colors are kept for blocks of two by two */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** light, and how much it covers (0 to 255), per pixel; the two colors and their cover per block */
  readonly luma: Uint8Array;
  readonly lumaCover: Uint8Array;
  readonly blue: Uint8Array;
  readonly red: Uint8Array;
  readonly colorCover: Uint8Array;
}

/** Light and colors of a pixel in the narrow range of film, by the matrix of BT.709 (ITU-R BT.709-6, table 3). */
function toFilm(red: number, green: number, blue: number): [number, number, number] {
  const light = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  return [
    16 + (light * 219) / 255,
    128 + (((blue - light) / 1.8556) * 224) / 255,
    128 + (((red - light) / 1.5748) * 224) / 255,
  ];
}

function filledBox(rgba: Uint8ClampedArray, { width, height }: Size) {
  let [left, top, right, bottom] = [width, height, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (rgba[(y * width + x) * 4 + 3] === 0) continue;
      left = Math.min(left, x);
      right = Math.max(right, x + 1);
      top = Math.min(top, y);
      bottom = y + 1;
    }
  }
  if (right === 0) return null;
  const [x, y] = [left & ~1, top & ~1];
  return {
    x,
    y,
    width: Math.min(width - x, (right - x + 1) & ~1),
    height: Math.min(height - y, (bottom - y + 1) & ~1),
  };
}

function layerOf(rgba: Uint8ClampedArray, size: Size, fromFrame: number, toFrame: number): Layer | null {
  const box = filledBox(rgba, size);
  if (!box) return null;
  const blocks = (box.width / 2) * (box.height / 2);
  const layer: Layer = {
    ...{ fromFrame, toFrame, ...box },
    luma: new Uint8Array(box.width * box.height),
    lumaCover: new Uint8Array(box.width * box.height),
    ...{ blue: new Uint8Array(blocks), red: new Uint8Array(blocks), colorCover: new Uint8Array(blocks) },
  };
  for (let blockY = 0; blockY < box.height / 2; blockY++) {
    for (let blockX = 0; blockX < box.width / 2; blockX++) {
      const sums = { blue: 0, red: 0, cover: 0 };
      for (let corner = 0; corner < 4; corner++) {
        const x = blockX * 2 + (corner & 1);
        const y = blockY * 2 + (corner >> 1);
        const from = ((box.y + y) * size.width + box.x + x) * 4;
        const alpha = rgba[from + 3]!;
        const [light, blue, red] = toFilm(rgba[from]!, rgba[from + 1]!, rgba[from + 2]!);
        layer.luma[y * box.width + x] = Math.round(light);
        layer.lumaCover[y * box.width + x] = alpha;
        sums.blue += blue * alpha;
        sums.red += red * alpha;
        sums.cover += alpha;
      }
      const block = (blockY * box.width) / 2 + blockX;
      layer.blue[block] = sums.cover > 0 ? Math.round(sums.blue / sums.cover) : 128;
      layer.red[block] = sums.cover > 0 ? Math.round(sums.red / sums.cover) : 128;
      layer.colorCover[block] = Math.round(sums.cover / 4);
    }
  }
  return layer;
}

/** The overlays of a segment, drawn once for the reel's size. */
export function layersOf({ overlays = [] }: Pick<PlannedSegment, 'overlays'>, size: Size): Layer[] {
  return overlays.flatMap(
    ({ fromFrame, toFrame, paint }) => layerOf(paint(size), size, fromFrame, toFrame) ?? [],
  );
}

function blend(under: Uint8Array, at: number, over: number, cover: number): void {
  if (cover === 255) under[at] = over;
  else if (cover > 0) under[at] = Math.round((under[at]! * (255 - cover) + over * cover) / 255);
}

/** Lays a drawn picture over a frame (yuv420p) in place. */
export function paintOver(frame: Uint8Array, layer: Layer, width: number, height: number): void {
  for (let y = 0; y < layer.height; y++) {
    const row = (layer.y + y) * width + layer.x;
    const from = y * layer.width;
    for (let x = 0; x < layer.width; x++)
      blend(frame, row + x, layer.luma[from + x]!, layer.lumaCover[from + x]!);
  }
  const half = width / 2;
  const blueStart = width * height;
  const redStart = blueStart + half * (height / 2);
  for (let y = 0; y < layer.height / 2; y++) {
    const row = (layer.y / 2 + y) * half + layer.x / 2;
    const from = (y * layer.width) / 2;
    for (let x = 0; x < layer.width / 2; x++) {
      const cover = layer.colorCover[from + x]!;
      blend(frame, blueStart + row + x, layer.blue[from + x]!, cover);
      blend(frame, redStart + row + x, layer.red[from + x]!, cover);
    }
  }
}

/** A whole picture as a frame (yuv420p); where it is empty, the frame is black. */
export function yuvOfPicture(rgba: Uint8ClampedArray, width: number, height: number): Buffer {
  const frame = Buffer.alloc((width * height * 3) / 2, 128);
  frame.fill(16, 0, width * height);
  const layer = layerOf(rgba, { width, height }, 0, 1);
  if (layer) paintOver(frame, layer, width, height);
  return frame;
}
