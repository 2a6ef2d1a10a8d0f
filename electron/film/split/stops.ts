import type { FrameTable } from '../frame-table.ts';

/** A hole in the time stamps longer than this, and than several frames, is a camera that was stopped. */
const STOP_MICROS = 500_000;
const STOP_FRAMES = 4;

/** Frames at which a recording was started again: the first after each hole in the film's time stamps. */
export function stopsOf(table: Pick<FrameTable, 'ptsMicros'>): number[] {
  const { ptsMicros } = table;
  const steps = Float64Array.from(
    { length: Math.max(0, ptsMicros.length - 1) },
    (_, i) => ptsMicros[i + 1]! - ptsMicros[i]!,
  );
  const usual = Float64Array.from(steps).sort()[steps.length >> 1] ?? 0;
  const stops: number[] = [];
  steps.forEach((step, i) => {
    if (step >= STOP_MICROS && step > STOP_FRAMES * usual) stops.push(i + 1);
  });
  return stops;
}
