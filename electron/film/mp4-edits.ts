import type { Mp4Samples } from './mp4-boxes.ts';

const EDIT_LIMIT = 100;

/** Frames as they are shown, in any order; times and durations in units of the track's time scale. */
export interface ShownFrames {
  readonly times: number[];
  readonly durations: number[];
  readonly isKey: boolean[];
}

/*
 * An edit list says which stretch of the track is shown, and from when. Chromium and ffmpeg (the same demuxer) agree on
 * how, and the frame table has to agree with both, since one shows the film and the other cuts it: frames outside the
 * edit are decoded and not shown, and the first frame shown inside it moves to the edit's start, even where the edit
 * starts in the middle of a frame. Checked against ffprobe's times and the frames that Chromium paints.
 */
export function showSamples(samples: Mp4Samples): ShownFrames {
  const { decodeTimes, durations, offsets, isKey, edits, timescale, movieTimescale } = samples;
  const count = decodeTimes.length;
  const shown: ShownFrames = { times: [], durations: [], isKey: [] };
  const show = (sample: number, time: number) => {
    shown.times.push(time);
    shown.durations.push(durations[sample]!);
    shown.isKey.push(isKey[sample] === 1);
  };
  const presented = (sample: number) => decodeTimes[sample]! + (offsets?.[sample] ?? 0);

  const real = edits.filter((edit) => edit.mediaTime >= 0);
  if (real.length > EDIT_LIMIT) throw new RangeError(`its edit list has ${real.length} entries`);
  if (real.length === 0) {
    for (let sample = 0; sample < count; sample++) show(sample, presented(sample));
    return shown;
  }

  let shift = 0;
  for (const offset of offsets ?? []) shift = Math.max(shift, -offset);
  const scaled = (duration: number) => Math.round((duration * timescale) / Math.max(1, movieTimescale));
  let empty = 0;
  let clock = 0;
  let editEnd = 0;
  let metReal = false;
  let earliest = Number.POSITIVE_INFINITY;
  for (const edit of edits) {
    const length = scaled(edit.duration);
    clock = editEnd;
    editEnd += length;
    if (edit.mediaTime < 0) {
      if (!metReal) empty += length;
      continue;
    }
    metReal = true;
    const from = edit.mediaTime;
    const to = length > 0 ? from + length : Number.POSITIVE_INFINITY;

    let start = 0;
    for (let sample = 0; sample < count && decodeTimes[sample]! <= from; sample++) {
      if (isKey[sample] === 1 && presented(sample) <= from) start = sample;
    }
    let running = false;
    let keyAfterEdit = false;
    for (let sample = start; sample < count; sample++) {
      const at = presented(sample);
      const inside = at >= from && at < to;
      if (inside) {
        const time = clock + shift + (offsets?.[sample] ?? 0);
        earliest = Math.min(earliest, time);
        running = true;
        show(sample, time);
      }
      const step = durations[sample]!;
      if (running) clock += step;
      // frames that belong to the edit may still follow the first key frame after it, so one more is looked at
      if (at + step >= to && isKey[sample] === 1) {
        if (offsets && !keyAfterEdit) keyAfterEdit = true;
        else break;
      }
    }
  }
  const correction = Math.max(0, earliest - empty);
  if (Number.isFinite(correction) && correction > 0) {
    for (let frame = 0; frame < shown.times.length; frame++) shown.times[frame]! -= correction;
  }
  return shown;
}
