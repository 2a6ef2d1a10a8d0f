import type { ReelChoices, ReelEstimateView } from '../../../electron/service/views.ts';
import { bytesInWords } from '../../parts/bytes.ts';

export const ENDINGS = ['.mp4', '.m3u8', '.csv', '.xlsx'] as const;
export type Ending = (typeof ENDINGS)[number];

/** What stands in the export dialog. */
export interface ExportChoice {
  readonly ending: Ending;
  readonly quality: NonNullable<ReelChoices['quality']>;
  readonly size: NonNullable<ReelChoices['size']>;
  readonly tags: boolean;
  readonly fields: readonly string[];
  readonly titleCard: boolean;
}

export const FIRST_CHOICE: ExportChoice = {
  ending: '.mp4',
  quality: 'standard',
  size: 'source',
  tags: false,
  fields: ['formation', 'concept', 'coverage', 'result', 'gain'],
  titleCard: false,
};

export function isReel(ending: Ending): boolean {
  return ending === '.mp4' || ending === '.m3u8';
}

export function reelChoices({ quality, size, tags, fields, titleCard }: ExportChoice): ReelChoices {
  return { quality, size, titleCard, burn: tags ? ['tags'] : [], ...(tags ? { fields } : {}) };
}

function timeInWords(seconds: number): string {
  if (seconds < 90) return `${Math.max(1, Math.ceil(seconds))} s`;
  return `${Math.ceil(seconds / 60)} min`;
}

/** `8 min 02 s of film, about 380 MB, takes about 40 s` */
export function costInWords({ seconds, bytes, makingSeconds, width, height }: ReelEstimateView): string {
  const length =
    seconds < 60
      ? `${seconds.toFixed(1)} s`
      : `${Math.floor(seconds / 60)} min ${String(Math.floor(seconds % 60)).padStart(2, '0')} s`;
  return `${length} of film at ${width} × ${height}, about ${bytesInWords(bytes)}; takes about ${timeInWords(makingSeconds)}`;
}

/** How the clips are made, and why some are encoded: `58 clips copied but for their edges, 2 encoded: ...` */
export function waysInWords({ how, whyEncoded }: ReelEstimateView): string {
  const clips = (count: number) => (count === 1 ? '1 clip' : `${count} clips`);
  const ways = [
    how.copied > 0 ? `${clips(how.copied)} copied as filmed` : '',
    how.edges > 0 ? `${clips(how.edges)} copied but for the edges` : '',
    how.encoded > 0 ? `${clips(how.encoded)} encoded${whyEncoded ? `: ${whyEncoded}` : ''}` : '',
  ];
  return `${ways.filter(Boolean).join('; ')}.`;
}
