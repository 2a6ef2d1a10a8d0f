/**
 * How a film is given to ffmpeg. A file is opened by itself only: the list of containers leaves out every kind that
 * names other files (playlists, concatenation scripts, picture series), and the list of protocols every network.
 */
const CONTAINERS = [
  'mov',
  'mp4',
  'm4a',
  '3gp',
  '3g2',
  'mj2',
  'matroska',
  'webm',
  'mpegts',
  'mpeg',
  'mpegvideo',
  'avi',
  'asf',
  'flv',
  'mxf',
  'dv',
  'ogg',
  'h264',
  'hevc',
].join(',');

export function filmInput(path: string, beforeInput: readonly string[] = []): string[] {
  return [
    '-protocol_whitelist',
    'file,pipe',
    '-format_whitelist',
    CONTAINERS,
    ...beforeInput,
    '-i',
    `file:${path}`,
  ];
}

/** Arguments that every run of ffmpeg starts with. */
export const QUIET = ['-hide_banner', '-nostdin', '-nostats', '-loglevel'] as const;
