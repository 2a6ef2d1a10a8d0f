import { type FrameTable, keyFrameBefore, startMicros } from './frame-table.ts';

/** Containers with an index of key frames; in the others a seek lands somewhere near, so more is decoded to be safe. */
const INDEXED = new Set(['mp4', 'mov', 'mkv', 'webm']);
const UNINDEXED_MARGIN_MICROS = 3_000_000;

/** A cut between frame - 1 and frame that lies well between two times; damaged films have frames at equal times. */
export function cutMicros(
  table: FrameTable,
  frame: number,
  towards: -1 | 1,
): { micros: number; frame: number } {
  const count = table.ptsMicros.length;
  let at = frame;
  while (at > 0 && at < count && table.ptsMicros[at]! - table.ptsMicros[at - 1]! < 4) at += towards;
  if (at <= 0) return { micros: table.ptsMicros[0]! - 10_000_000, frame: 0 };
  if (at >= count) return { micros: table.endMicros + 10_000_000, frame: count };
  return { micros: Math.floor((table.ptsMicros[at - 1]! + table.ptsMicros[at]!) / 2), frame: at };
}

/** Arguments before the input that start decoding at the key frame before `inFrame`, on the film's own clock. */
export function seekArgs(table: FrameTable, inFrame: number): string[] {
  const key = keyFrameBefore(table, inFrame);
  if (key === 0 && !INDEXED.has(table.container)) return ['-copyts'];
  const middle = (startMicros(table, key) + startMicros(table, key + 1)) / 2;
  const micros = INDEXED.has(table.container) ? middle : middle - UNINDEXED_MARGIN_MICROS;
  return ['-copyts', '-seek_timestamp', '1', '-noaccurate_seek', '-ss', (micros / 1e6).toFixed(6)];
}
