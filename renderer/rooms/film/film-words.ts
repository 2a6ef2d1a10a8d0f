/** Film in words: lengths, rates, angles. */

import type { Angle, FilmView } from '../../../electron/service/views.ts';

export const ANGLES: readonly { readonly value: Angle; readonly label: string }[] = [
  { value: 'sideline', label: 'Sideline' },
  { value: 'endzone', label: 'End zone' },
  { value: 'other', label: 'Other' },
];

export function angleLabel(angle: Angle): string {
  return ANGLES.find((known) => known.value === angle)?.label ?? angle;
}

/** Seconds as `0:08`, `12:31` or `1:02:05`. */
export function lengthInWords(seconds: number): string {
  const whole = Math.round(seconds);
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  const tail = String(rest).padStart(2, '0');
  return hours > 0 ? `${hours}:${String(minutes).padStart(2, '0')}:${tail}` : `${minutes}:${tail}`;
}

/** `29.97`, `30`: no more digits than the rate has. */
export function rateInWords(fps: number): string {
  return String(Number(fps.toFixed(2)));
}

const CODECS: Readonly<Record<string, string>> = {
  avc: 'H.264',
  hevc: 'HEVC',
  mpeg2video: 'MPEG-2',
  mpeg1video: 'MPEG-1',
  mpeg4: 'MPEG-4',
  mjpeg: 'Motion JPEG',
  dvvideo: 'DV',
  prores: 'ProRes',
  vp8: 'VP8',
  vp9: 'VP9',
  av1: 'AV1',
};

/** A codec as people say it. */
export function codecInWords(codec: string): string {
  return CODECS[codec] ?? codec;
}

/** What is unusual about a film's picture, in few words; empty where nothing is. */
export function oddities(film: Pick<FilmView, 'interlaced' | 'startTimecode'>): string {
  return [film.interlaced ? 'interlaced' : '', film.startTimecode ? `from ${film.startTimecode}` : '']
    .filter(Boolean)
    .join(' · ');
}

/** The frame whose still stands for a film: a third in, past a slate and before the end. */
export function stillFrame(film: Pick<FilmView, 'frames'>): number {
  return Math.max(0, Math.floor(film.frames / 3));
}
