import {
  EncodedAudioPacketSource,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathSource,
  FilePathTarget,
  Input,
  MATROSKA,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { rateNumber } from '../film/frame-table.ts';
import { type ByteRange, clearStamps, timeStampsIn } from './mp4-stamps.ts';
import { CANCELLED, ReelFailure } from './reel-failure.ts';
import type { ReelPlan } from './reel-plan.ts';

const AAC_SAMPLES_PER_PACKET = 1024;

function unreadable(message: string): ReelFailure {
  return new ReelFailure({
    code: 'reel-check-failed',
    message: `What ffmpeg encoded can't be put together: ${message}.`,
    kept: 'Nothing was written under the name of the export.',
    next: 'Export again; if it stays, name another ffmpeg in TAPEBOOK_FFMPEG.',
  });
}

/** An encoded track in a file of its own, read back packet by packet. */
async function openTrack(path: string, kind: 'video' | 'audio') {
  const input = new Input({ source: new FilePathSource(path), formats: [MATROSKA] });
  const track = kind === 'video' ? await input.getPrimaryVideoTrack() : await input.getPrimaryAudioTrack();
  if (!track) throw unreadable(`the encoded ${kind} can't be read back`);
  const decoderConfig = await track.getDecoderConfig();
  if (!decoderConfig) throw unreadable(`the encoded ${kind} has no description`);
  const sink = new EncodedPacketSink(track);
  return { input, track, decoderConfig, sink, packet: await sink.getFirstPacket() };
}

/**
 * Puts picture and sound into one MP4. The encoder numbered its frames at a constant rate; here each gets the time that
 * the plan holds for it, so that frames of differing sources keep their own durations.
 */
export async function muxReel(
  plan: ReelPlan,
  picturePath: string,
  soundPath: string | null,
  target: string,
  signal?: AbortSignal,
): Promise<void> {
  const picture = await openTrack(picturePath, 'video');
  const sound = soundPath === null ? null : await openTrack(soundPath, 'audio');
  const fps = rateNumber(plan.rate);
  const stamps: ByteRange[] = [];
  try {
    const output = new Output({
      format: new Mp4OutputFormat({
        fastStart: 'reserve',
        onMoov: (data, position) => stamps.push(...timeStampsIn(data, position)),
      }),
      target: new FilePathTarget(target),
    });
    const pictureSource = new EncodedVideoPacketSource('avc');
    output.addVideoTrack(pictureSource, {
      ...(plan.constant ? { frameRate: fps } : {}),
      maximumPacketCount: plan.frames,
    });
    const soundSource = sound && new EncodedAudioPacketSource('aac');
    const seconds = plan.startsMicros[plan.frames]! / 1e6;
    const sampleRate = sound ? (sound.decoderConfig as AudioDecoderConfig).sampleRate : 0;
    if (soundSource) {
      const packets = Math.ceil((seconds * sampleRate) / AAC_SAMPLES_PER_PACKET) + 4;
      output.addAudioTrack(soundSource, { maximumPacketCount: packets });
    }
    await output.start();

    let soundPackets = 0;
    // the two tracks are written side by side, half a second of sound ahead of the picture at most
    const addSound = async (untilSeconds: number) => {
      while (sound?.packet && soundSource) {
        // the encoder's first packet only primes the decoder: it lies before the start
        const timestamp = ((soundPackets - 1) * AAC_SAMPLES_PER_PACKET) / sampleRate;
        if (timestamp >= Math.min(untilSeconds, seconds)) return;
        const duration = Math.min(AAC_SAMPLES_PER_PACKET / sampleRate, seconds - timestamp);
        await soundSource.add(
          sound.packet.clone({ timestamp, duration }),
          soundPackets === 0 ? { decoderConfig: sound.decoderConfig as AudioDecoderConfig } : undefined,
        );
        soundPackets++;
        sound.packet = await sound.sink.getNextPacket(sound.packet);
      }
    };

    let written = 0;
    while (picture.packet) {
      if (signal?.aborted) throw new ReelFailure(CANCELLED);
      const frame = Math.round(picture.packet.timestamp * fps);
      const start = plan.startsMicros[frame];
      const end = plan.startsMicros[frame + 1];
      if (start === undefined || end === undefined) throw unreadable(`the encoder wrote a frame too many`);
      await addSound(start / 1e6 + 0.5);
      await pictureSource.add(
        picture.packet.clone({ timestamp: start / 1e6, duration: (end - start) / 1e6 }),
        written === 0 ? { decoderConfig: picture.decoderConfig as VideoDecoderConfig } : undefined,
      );
      written++;
      picture.packet = await picture.sink.getNextPacket(picture.packet);
    }
    await addSound(Number.POSITIVE_INFINITY);
    await output.finalize();
    await clearStamps(target, stamps);
  } finally {
    picture.input.dispose();
    sound?.input.dispose();
  }
}
