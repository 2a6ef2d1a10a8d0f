import { filmInput, QUIET } from '../film/ffmpeg-input.ts';
import { startMicros } from '../film/frame-table.ts';
import { startProgram } from '../film/run.ts';
import { CANCELLED, fromEncoder, ReelFailure } from './reel-failure.ts';
import type { PlannedSegment, ReelPlan } from './reel-plan.ts';
import type { ReelOptions } from './reel-types.ts';
import { send } from './send.ts';

const SAMPLES_PER_SECOND = 48_000;
const BYTES_PER_SAMPLE = 4;
const SILENCE = Buffer.alloc(65_536);

/** How many samples before the end of the segment each output sample count is: from the reel's clock, so nothing drifts. */
function samplesUntil(micros: number): number {
  return Math.round((micros * SAMPLES_PER_SECOND) / 1e6);
}

/** Decodes the sound of one segment to 16-bit stereo that starts exactly with its first frame. */
function decodeSound(segment: PlannedSegment, options: ReelOptions) {
  const { table, inFrame, outFrame } = segment;
  const from = startMicros(table, inFrame);
  const to = startMicros(table, outFrame);
  const first = Math.round((from * SAMPLES_PER_SECOND) / 1e6);
  const seekSeconds = (from - 1_000_000) / 1e6;
  const seek = seekSeconds > table.ptsMicros[0]! / 1e6;
  return startProgram(
    options.tools.ffmpeg.path,
    [
      ...QUIET,
      'error',
      ...filmInput(segment.path, [
        '-copyts',
        ...(seek ? ['-seek_timestamp', '1', '-noaccurate_seek', '-ss', seekSeconds.toFixed(6)] : []),
      ]),
      '-map',
      '0:a:0',
      '-vn',
      '-af',
      [
        `atrim=start=${(from / 1e6).toFixed(6)}:end=${(to / 1e6).toFixed(6)}`,
        // fills a late start and gaps with silence, so that sound stays with the picture
        `aresample=${SAMPLES_PER_SECOND}:async=1:first_pts=${first}`,
      ].join(','),
      '-ac',
      '2',
      '-f',
      's16le',
      'pipe:1',
    ],
    { signal: options.signal, givesOutput: true },
  );
}

/** Encodes the sound of a whole reel to AAC; clips without sound are silent. */
export async function encodeSound(
  plan: ReelPlan,
  target: string,
  folder: string,
  options: ReelOptions,
  onSegments: (done: number) => void,
): Promise<void> {
  const encoder = startProgram(
    options.tools.ffmpeg.path,
    [
      ...QUIET,
      'error',
      '-y',
      ...['-f', 's16le', '-ar', String(SAMPLES_PER_SECOND), '-ac', '2', '-i', 'pipe:0'],
      ...['-c:a', 'aac', '-b:a', '128k', '-fflags', '+bitexact', '-flags:a', '+bitexact'],
      ...['-f', 'mp4', `file:${target}`],
    ],
    { signal: options.signal, takesInput: true },
  );
  try {
    for (const segment of plan.segments) {
      if (!encoder.input) break;
      const from = samplesUntil(plan.startsMicros[segment.firstFrame]!);
      const to = samplesUntil(plan.startsMicros[segment.firstFrame + segment.frames]!);
      let missing = (to - from) * BYTES_PER_SAMPLE;
      if (segment.table.hasAudio) {
        const decoder = decodeSound(segment, options);
        try {
          for await (const chunk of decoder.output ?? []) {
            const part = (chunk as Buffer).subarray(0, missing);
            await send(encoder.input, part);
            missing -= part.length;
            if (missing === 0 || encoder.input.destroyed) break;
          }
        } finally {
          decoder.stop();
          await decoder.ended;
        }
      }
      while (missing > 0 && !encoder.input.destroyed) {
        const part = SILENCE.subarray(0, Math.min(missing, SILENCE.length));
        await send(encoder.input, part);
        missing -= part.length;
      }
      if (options.signal?.aborted) throw new ReelFailure(CANCELLED);
      onSegments(segment.index + 1);
    }
    encoder.input?.end();
    const end = await encoder.ended;
    if (end.code !== 0) throw new ReelFailure(fromEncoder(end, folder));
  } finally {
    encoder.stop();
    await encoder.ended;
  }
}
