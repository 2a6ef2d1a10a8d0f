import { startMicros } from '../../film/frame-table.ts';
import type { ReelPlan } from '../reel-plan.ts';
import type { PacketFilms } from './cut-plan.ts';
import type { SoundPackets } from './packet-film.ts';
import type { OutPacket, SoundTrack } from './write-mp4.ts';

const PACKET_SAMPLES = 1024;
const PRIMING_PACKETS = 1;
/** A film's sound may begin or end so many packets beside its picture (64 ms): the nearest packet fills the gap. */
const MISSING_PACKETS = 3;

function nearest(starts: Float64Array, micros: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (starts[middle]! < micros) low = middle + 1;
    else high = middle;
  }
  return low > 0 && micros - starts[low - 1]! < starts[low]! - micros ? low - 1 : low;
}

/**
 * The sound of a reel out of the films' own packets, where all of them are of one kind. The reel's packets follow each
 * other without a gap, each taken from the place in its film that lies nearest: within a segment all are off by the same
 * amount, at most half a packet (11 ms at 48 kHz), which is less than a frame. Gives null where any of this can't be had.
 */
export async function copySound(plan: ReelPlan, films: PacketFilms): Promise<SoundTrack | null> {
  let first: SoundPackets | null = null;
  const packets: OutPacket[] = [];
  for (const segment of plan.segments) {
    const { table, inFrame, firstFrame, frames } = segment;
    if (segment.repeats || !table.hasAudio) return null;
    const film = await films.film(segment);
    const sound = 'setup' in film ? film.sound : null;
    if (!sound || sound.startMicros.length === 0) return null;
    first ??= sound;
    if (sound.config !== first.config || sound.sampleRate !== first.sampleRate) return null;
    const length = (PACKET_SAMPLES * 1e6) / sound.sampleRate;
    const reelStart = plan.startsMicros[firstFrame]!;
    const reelEnd = plan.startsMicros[firstFrame + frames]!;
    const shift = startMicros(table, inFrame) - reelStart;
    const add = (at: number) => {
      packets.push({ path: segment.path, at: sound.at[at]!, bytes: sound.bytes[at]!, before: null });
    };
    let wanted = (packets.length - PRIMING_PACKETS) * length;
    let at = nearest(sound.startMicros, Math.max(0, wanted) + shift);
    if (packets.length === 0) {
      add(Math.max(0, at - PRIMING_PACKETS));
      wanted += length;
    }
    const last = sound.startMicros.length - 1;
    for (; wanted < reelEnd; wanted += length, at++) {
      const there = Math.min(at, last);
      const off = Math.abs(sound.startMicros[there]! - wanted - shift);
      const atAnEnd = there === 0 || there === last;
      if (off > (atAnEnd ? MISSING_PACKETS : 0.51) * length) return null;
      add(there);
      // sound that begins late: its first packet stands in until its own time has come
      if (there === 0 && off > 0.51 * length) at -= 1;
    }
  }
  return first && { entry: first.entry, sampleRate: first.sampleRate, packets, priming: PRIMING_PACKETS };
}
