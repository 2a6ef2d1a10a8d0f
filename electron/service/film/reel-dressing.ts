import { formatPlain } from '../../../football/values.ts';
import { lowerThird } from '../../export/overlay/lower-third.ts';
import { cardSegment } from '../../export/overlay/title-card.ts';
import type { ReelSegment } from '../../export/reel-types.ts';
import { chosenFields, plainPlays } from '../actions/sheets/export.ts';
import type { Station } from '../station.ts';
import type { BurnChoice, CutupDetailView } from '../views.ts';
import type { CutupSegment } from './export-cutup.ts';

/** What a lower third tells unless other fields are chosen; those without a value are left out. */
export const USUAL_BURNT_FIELDS = ['formation', 'concept', 'coverage', 'result', 'gain'] as const;
const CARD_SECONDS = 3;
const ORDINALS = ['1st', '2nd', '3rd', '4th'];

export interface Dressing {
  readonly burn: readonly BurnChoice[];
  /** keys of fields for the lower third; null: the usual ones */
  readonly fields: readonly string[] | null;
  /** a card with the cut-up's name in front */
  readonly titleCard: boolean;
}

export interface Dressed {
  readonly segments: readonly ReelSegment[];
  /** segments in front that are no clip */
  readonly cards: number;
  readonly burnt: { readonly tags: number; readonly drawings: number };
}

function situation(row: Readonly<Record<string, unknown>>, playNumber: number | null): string {
  const { down, distance } = row;
  const words = [
    playNumber === null ? '' : `Play ${playNumber}`,
    typeof down === 'number'
      ? `${ORDINALS[down - 1] ?? down}${typeof distance === 'number' ? ` & ${distance}` : ''}`
      : '',
  ];
  return words.filter((word) => word !== '').join('   ');
}

/**
 * Puts the cut-up's card in front and its plays' tags over its clips. Drawings take their place here when the library
 * holds any; it holds none yet.
 * @throws ProblemError `field-unknown`
 */
export function dressReel(
  station: Station,
  cutup: CutupDetailView,
  clips: readonly CutupSegment[],
  reel: readonly ReelSegment[],
  { burn, fields, titleCard }: Dressing,
): Dressed {
  let tags = 0;
  let segments: readonly ReelSegment[] = reel;
  if (burn.includes('tags')) {
    const known = station.vocabulary().fields;
    const wanted = fields ?? USUAL_BURNT_FIELDS.filter((key) => known.find(key));
    const chosen = chosenFields(station, wanted);
    const ids = clips.map(({ playId }) => playId);
    const rows = new Map(
      plainPlays(station, ids, [...new Set([...wanted, 'down', 'distance'])]).map((row) => [row.playId, row]),
    );
    segments = reel.map((segment, at) => {
      const { playId, playNumber } = clips[at]!;
      const row = rows.get(playId) ?? {};
      tags += 1;
      const paint = lowerThird({
        title: situation(row, playNumber),
        tags: chosen.map((field) => ({
          name: field.label,
          value: formatPlain(field, row[field.key] ?? null),
        })),
      });
      return { ...segment, overlays: [{ fromFrame: segment.inFrame, toFrame: segment.outFrame, paint }] };
    });
  }
  const first = reel[0];
  if (titleCard && first) {
    const plays = new Set(clips.map(({ playId }) => playId)).size;
    const lines = [`${plays} ${plays === 1 ? 'play' : 'plays'}`, ...(cutup.note ?? '').split('\n')].filter(
      (line) => line.trim() !== '',
    );
    segments = [cardSegment({ title: cutup.name, lines, seconds: CARD_SECONDS }, first.table), ...segments];
  }
  return { segments, cards: segments.length - reel.length, burnt: { tags, drawings: 0 } };
}
