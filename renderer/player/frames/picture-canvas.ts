import type { Shape } from './film-decoder.ts';

/** A canvas over the video element that shows one decoded frame, upright and in the shape in which it is meant. */
export class PictureCanvas {
  private readonly canvas = document.createElement('canvas');
  private readonly context = this.canvas.getContext('2d', { alpha: false });
  covers = false;

  constructor(root: HTMLElement) {
    this.canvas.hidden = true;
    root.append(this.canvas);
  }

  draw(picture: VideoFrame, shape: Shape, frame: number): void {
    const { context, canvas } = this;
    if (!context) return;
    if (canvas.width !== shape.width || canvas.height !== shape.height) {
      canvas.width = shape.width;
      canvas.height = shape.height;
    }
    const across = shape.rotation % 180 !== 0;
    const width = across ? shape.height : shape.width;
    const height = across ? shape.width : shape.height;
    context.setTransform(1, 0, 0, 1, shape.width / 2, shape.height / 2);
    if (shape.flip) context.scale(-1, 1);
    if (shape.rotation) context.rotate((shape.rotation * Math.PI) / 180);
    context.drawImage(picture, -width / 2, -height / 2, width, height);
    canvas.dataset.frame = String(frame);
    canvas.hidden = false;
    this.covers = true;
  }

  hide(): void {
    this.canvas.hidden = true;
    this.covers = false;
  }
}
