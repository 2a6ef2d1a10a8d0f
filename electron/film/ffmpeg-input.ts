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

/**
 * Argument that lets every frame through with its own time, neither doubled nor dropped. Newer ffmpeg names it otherwise;
 * builds from a snapshot carry a count of commits instead of a version.
 */
export function everyFrame(version: string): string[] {
  const snapshot = /^N-(\d+)/.exec(version);
  const release = /^n?(\d+)\.(\d+)/.exec(version);
  const renamed = snapshot
    ? Number(snapshot[1]) >= 107_000
    : release !== null && Number(release[1]) * 100 + Number(release[2]) >= 501;
  return renamed ? ['-fps_mode', 'passthrough'] : ['-vsync', 'passthrough'];
}

/** Arguments that every run of ffmpeg starts with. */
export const QUIET = ['-hide_banner', '-nostdin', '-nostats', '-loglevel'] as const;
