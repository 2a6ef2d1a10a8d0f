/**
 * The worker in which Mediabunny opens a file: a damaged file can send a reader into an endless loop, and a long one takes
 * seconds; here neither holds up the service. Plain JavaScript, because a worker's file is loaded as it stands.
 */
import { parentPort } from 'node:worker_threads';
import {
  EncodedPacketSink,
  FilePathSource,
  Input,
  Logging,
  LogLevel,
  MATROSKA,
  MP4,
  MPEG_TS,
  QTFF,
  WEBM,
} from 'mediabunny';

// its warnings would go to stdout, which belongs to the command line's answers
Logging.level = LogLevel.Silent;

/** Only kinds of file that hold film themselves: the list leaves out HLS, which names other files. */
const FORMATS = [MP4, QTFF, MATROSKA, WEBM, MPEG_TS];
const SHORT_NAMES = new Map([
  ['MP4', 'mp4'],
  ['QuickTime File Format', 'mov'],
  ['Matroska', 'mkv'],
  ['WebM', 'webm'],
  ['MPEG Transport Stream', 'ts'],
]);
const FRAME_LIMIT = 20_000_000;
/** parameter sets stand at the start of the first packet */
const HEADER_BYTES = 4096;

async function listPackets(track) {
  const sink = new EncodedPacketSink(track);
  const times = [];
  const durations = [];
  const isKey = [];
  let packet = await sink.getFirstPacket({ metadataOnly: true });
  while (packet) {
    times.push(packet.timestamp * 1e6);
    durations.push(packet.duration * 1e6);
    isKey.push(packet.type === 'key' ? 1 : 0);
    if (times.length > FRAME_LIMIT) throw new RangeError(`it claims more than ${FRAME_LIMIT} frames`);
    packet = await sink.getNextPacket(packet, { metadataOnly: true });
  }
  return {
    times: Float64Array.from(times),
    durations: Float64Array.from(durations),
    isKey: Uint8Array.from(isKey),
  };
}

/** What sets a decoder up. A file whose headers are damaged may still list its frames, so failing here is no end. */
async function setupOf(track) {
  const nothing = { codecString: null, description: null, firstPacket: null };
  try {
    const config = await track.getDecoderConfig();
    if (!config) return nothing;
    const given = config.description;
    const description = given
      ? new Uint8Array(
          ArrayBuffer.isView(given)
            ? given.buffer.slice(given.byteOffset, given.byteOffset + given.byteLength)
            : given,
        )
      : null;
    if (description) return { codecString: config.codec, description, firstPacket: null };
    const packet = await new EncodedPacketSink(track).getFirstPacket();
    return {
      codecString: config.codec,
      description,
      firstPacket: packet ? packet.data.slice(0, HEADER_BYTES) : null,
    };
  } catch {
    return nothing;
  }
}

async function soundStartOf(track) {
  try {
    return track ? Math.round((await track.getFirstTimestamp()) * 1e6) : null;
  } catch {
    return null;
  }
}

async function look({ path, packets }) {
  const input = new Input({ source: new FilePathSource(path), formats: FORMATS });
  try {
    if (!(await input.canRead())) return { kind: 'other' };
    const container = SHORT_NAMES.get((await input.getFormat()).name) ?? 'unknown';
    const [tracks, audio] = await Promise.all([input.getVideoTracks(), input.getAudioTracks()]);
    const track = tracks[0];
    if (!track) return { kind: 'no-picture' };
    const codecId = await track.getInternalCodecId();
    const description = {
      codec: (await track.getCodec()) ?? (typeof codecId === 'string' ? codecId.trim() : 'unknown'),
      container,
      width: Math.round(await track.getDisplayWidth()),
      height: Math.round(await track.getDisplayHeight()),
      rotation: await track.getRotation(),
      hasAudio: audio.length > 0,
    };
    const isMp4 = container === 'mp4' || container === 'mov';
    const frames = packets === 'all' || !isMp4 ? await listPackets(track) : null;
    return {
      kind: 'film',
      trackId: track.id,
      description,
      setup: await setupOf(track),
      soundStart: await soundStartOf(audio[0]),
      frames,
    };
  } finally {
    input.dispose();
  }
}

parentPort.on('message', async (request) => {
  try {
    parentPort.postMessage(await look(request));
  } catch (error) {
    parentPort.postMessage({
      kind: 'failed',
      message: error instanceof Error ? error.message : String(error),
    });
  }
});
