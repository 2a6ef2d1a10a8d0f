import {
  type MetricSettings,
  SUCCESS_VARIANTS,
  type SuccessVariant,
} from '../../../football/metrics/settings.ts';
import { ProblemError } from '../../../football/result.ts';
import { metricSettings } from '../columns.ts';
import type { Station } from '../station.ts';

export type SettingsChange = Partial<
  Pick<MetricSettings, 'success' | 'explosiveRunYards' | 'explosivePassYards'>
>;

/** What the staff has chosen about its numbers, over the defaults. */
export function settings(station: Station): MetricSettings {
  return metricSettings(station.library);
}

/** @throws ProblemError `setting-unfit` */
export function changeSettings(station: Station, change: SettingsChange): MetricSettings {
  if (change.success !== undefined && !SUCCESS_VARIANTS.includes(change.success as SuccessVariant)) {
    throw unfit(
      `There is no success variant ${change.success}.`,
      `The variants are ${SUCCESS_VARIANTS.join(', ')}.`,
    );
  }
  for (const yards of [change.explosiveRunYards, change.explosivePassYards]) {
    if (yards !== undefined && (!Number.isInteger(yards) || yards < 1 || yards > 99)) {
      throw unfit(`An explosive play cannot begin at ${yards} yards.`, 'Give whole yards from 1 to 99.');
    }
  }
  const { success, explosiveRunYards, explosivePassYards } = { ...settings(station), ...change };
  station.library.journal.commit({ label: 'change how numbers are made' }, [
    {
      entity: 'setting',
      id: 'metrics',
      field: 'value',
      value: JSON.stringify({ success, explosiveRunYards, explosivePassYards }),
    },
  ]);
  return settings(station);
}

function unfit(message: string, next: string): ProblemError {
  return new ProblemError({ code: 'setting-unfit', message, kept: 'Nothing was changed.', next });
}
