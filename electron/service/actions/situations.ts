import { ProblemError } from '../../../football/result.ts';
import { type SituationLimits, unfitLimits } from '../../../football/vocabulary/situation-limits.ts';
import { situationLimits } from '../columns.ts';
import type { Station } from '../station.ts';

/** Where the staff's zones of the field and of a down begin. */
export function situations(station: Station): SituationLimits {
  return situationLimits(station.library);
}

/** @throws ProblemError `setting-unfit` */
export function changeSituations(station: Station, change: Partial<SituationLimits>): SituationLimits {
  const next = { ...situations(station), ...change };
  const unfit = unfitLimits(next);
  if (unfit) {
    throw new ProblemError({
      code: 'setting-unfit',
      message: unfit,
      kept: 'Nothing was changed.',
      next: 'Give limits that follow one another.',
    });
  }
  station.library.journal.commit({ label: 'change zones and distances' }, [
    { entity: 'setting', id: 'situations', field: 'value', value: JSON.stringify(next) },
  ]);
  return situations(station);
}
