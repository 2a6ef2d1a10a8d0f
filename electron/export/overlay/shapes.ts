import type { Overlay } from '../reel-types.ts';
import { fontOf, paintWith } from './canvas.ts';

/** A place on the picture: 0..1 from its left and from its top. */
export type Place = readonly [x: number, y: number];

/**
 * Vector drawings on film. Widths and radii are parts of the picture's height, so that a drawing looks the same at every
 * size.
 */
export type Shape =
  | {
      readonly kind: 'line' | 'arrow' | 'freehand';
      readonly points: readonly Place[];
      readonly color: string;
      readonly width: number;
    }
  | {
      readonly kind: 'area';
      readonly points: readonly Place[];
      readonly color: string;
      readonly cover: number;
    }
  | {
      readonly kind: 'circle';
      readonly at: Place;
      readonly radius: number;
      readonly color: string;
      readonly width: number;
    }
  | { readonly kind: 'spotlight'; readonly at: Place; readonly radius: number; readonly dim: number }
  | {
      readonly kind: 'text';
      readonly at: Place;
      readonly text: string;
      readonly height: number;
      readonly color: string;
    };

/** Shapes that stand over the frames fromFrame..toFrame - 1 of a film, as an overlay of a reel's segment. */
export function drawingOverlay(fromFrame: number, toFrame: number, shapes: readonly Shape[]): Overlay {
  const paint = paintWith(({ pen, width, height }) => {
    const x = (place: Place) => place[0] * width;
    const y = (place: Place) => place[1] * height;
    const trace = (points: readonly Place[]) => {
      pen.beginPath();
      for (const [at, point] of points.entries()) {
        if (at === 0) pen.moveTo(x(point), y(point));
        else pen.lineTo(x(point), y(point));
      }
    };
    pen.lineCap = 'round';
    pen.lineJoin = 'round';
    for (const shape of shapes) {
      switch (shape.kind) {
        case 'line':
        case 'freehand':
        case 'arrow': {
          pen.strokeStyle = shape.color;
          pen.fillStyle = shape.color;
          pen.lineWidth = shape.width * height;
          trace(shape.points);
          pen.stroke();
          const [before, tip] = shape.points.slice(-2);
          if (shape.kind !== 'arrow' || !before || !tip) break;
          const turn = Math.atan2(y(tip) - y(before), x(tip) - x(before));
          const reach = shape.width * height * 4;
          pen.beginPath();
          pen.moveTo(x(tip) + Math.cos(turn) * reach * 0.4, y(tip) + Math.sin(turn) * reach * 0.4);
          for (const side of [2.6, -2.6]) {
            pen.lineTo(x(tip) + Math.cos(turn + side) * reach, y(tip) + Math.sin(turn + side) * reach);
          }
          pen.fill();
          break;
        }
        case 'area':
          pen.globalAlpha = shape.cover;
          pen.fillStyle = shape.color;
          trace(shape.points);
          pen.fill();
          pen.globalAlpha = 1;
          break;
        case 'circle':
          pen.strokeStyle = shape.color;
          pen.lineWidth = shape.width * height;
          pen.beginPath();
          pen.arc(x(shape.at), y(shape.at), shape.radius * height, 0, Math.PI * 2);
          pen.stroke();
          break;
        case 'spotlight':
          pen.fillStyle = `rgba(0, 0, 0, ${shape.dim})`;
          pen.beginPath();
          pen.rect(0, 0, width, height);
          pen.arc(x(shape.at), y(shape.at), shape.radius * height, 0, Math.PI * 2);
          pen.fill('evenodd');
          break;
        case 'text':
          pen.font = fontOf(shape.height * height, 700);
          pen.lineWidth = shape.height * height * 0.18;
          pen.strokeStyle = 'rgba(0, 0, 0, 0.85)';
          pen.strokeText(shape.text, x(shape.at), y(shape.at));
          pen.fillStyle = shape.color;
          pen.fillText(shape.text, x(shape.at), y(shape.at));
          break;
      }
    }
  });
  return { fromFrame, toFrame, paint };
}
