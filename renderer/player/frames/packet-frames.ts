import { type FrameTimes, nearestFrame } from '../frame-times.ts';

/** How far a packet's time may lie from the table's, micros: containers round to a millisecond at worst. */
const ROUNDING_MICROS = 1100;
/** Share of the first frames that must be found before a shift between the two clocks is believed. */
const ENOUGH = 0.95;

/** Which frame of the table a time on the container's clock is; null for a packet that is never shown. */
export function frameOfPacket(times: FrameTimes, packetMicros: number, shiftMicros: number): number | null {
  const micros = packetMicros - shiftMicros;
  const frame = nearestFrame(times, micros);
  const off = Math.abs(times.ptsMicros[frame]! - micros);
  return off <= ROUNDING_MICROS ? frame : null;
}

/**
 * The distance between the container's clock and the table's, micros: 0 where both apply the edit list, else what makes
 * the first frames meet; null where they do not meet at all, and then nothing decoded could be named.
 *
 * @param packetMicros times of the first packets, in the order in which they are stored
 */
export function clockShift(times: FrameTimes, packetMicros: readonly number[]): number | null {
  const first = times.ptsMicros[0];
  if (first === undefined || packetMicros.length === 0) return null;
  const stored = [...packetMicros].sort((a, b) => a - b);
  // the last ones read may still wait for packets that are stored later
  const sure = Math.max(1, Math.min(times.ptsMicros.length, Math.floor(stored.length * 0.6)));
  const found = (shift: number) => {
    const frames = new Set<number>();
    for (const micros of stored) {
      const frame = frameOfPacket(times, micros, shift);
      if (frame !== null && frame < sure) frames.add(frame);
    }
    return frames.size / sure;
  };
  if (found(0) >= ENOUGH) return 0;
  const shifts = stored.map((micros) => micros - first);
  const best = shifts.reduce((a, b) => (found(b) > found(a) ? b : a));
  return found(best) >= ENOUGH ? best : null;
}
