import type { PlayView, PredictedSituation } from '../../../electron/service/views.ts';
import type { PlayRecord } from '../../../football/play.ts';
import type { PlainValue } from '../../../football/values.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';

/** How a field's value came to stand there. */
export type Standing = 'entered' | 'predicted' | 'missing';

export interface Shown {
  readonly value: PlainValue;
  readonly standing: Standing;
}

/** What is known of a play: what is stored, over what is predicted. The log line reads a play this way too. */
export function knownPlay(play: PlayView): PlayRecord {
  const known: Record<string, unknown> = { ...play.record };
  for (const [key, value] of Object.entries(play.prediction ?? {}))
    if (value !== null && (known[key] ?? null) === null) known[key] = value;
  return known as unknown as PlayRecord;
}

function stored(play: PlayView, field: FieldDefinition): PlainValue {
  const columns = play.record as unknown as Readonly<Record<string, PlainValue | undefined>>;
  return (field.home === 'tag' ? play.record.tags[field.key] : columns[field.key]) ?? null;
}

/** A field of a play as the card shows it. */
export function shownField(play: PlayView, field: FieldDefinition): Shown {
  if (field.key === 'timeToThrow') return throwTime(play);
  const value = stored(play, field);
  if (value !== null)
    return { value, standing: play.predicted.includes(field.key) ? 'predicted' : 'entered' };
  const predicted = play.prediction?.[field.key as keyof PredictedSituation] ?? null;
  return predicted === null
    ? { value: null, standing: 'missing' }
    : { value: predicted, standing: 'predicted' };
}

/** Snap to release on one film, in seconds to the hundredth. */
function throwTime(play: PlayView): Shown {
  const seconds = secondsToThrow(play);
  return seconds === null
    ? { value: null, standing: 'missing' }
    : { value: `${seconds.toFixed(2)} s`, standing: 'entered' };
}

/** Seconds from the snap to the release, from stamps on the same film; null where one is missing. */
export function secondsToThrow(play: PlayView): number | null {
  for (const snap of play.stamped.filter((moment) => moment.kind === 'snap')) {
    const release = play.stamped.find((each) => each.kind === 'release' && each.filmId === snap.filmId);
    if (release && release.seconds > snap.seconds) return release.seconds - snap.seconds;
  }
  return null;
}
