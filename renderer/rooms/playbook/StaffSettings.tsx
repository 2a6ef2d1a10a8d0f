import { Group, NumberInput, Select } from '@mantine/core';
import { SMALL_SAMPLE } from '../../../football/metrics/metric.ts';
import {
  explosiveInWords,
  SUCCESS_VARIANTS,
  type SuccessVariant,
  successInWords,
} from '../../../football/metrics/settings.ts';
import type { Level } from '../../../football/play.ts';
import { gesture } from '../../service/gesture.ts';
import { playbookCalls } from '../../service/playbook-calls.ts';
import { useLibrary, useSettings } from '../../service/queries.ts';
import classes from './playbook.module.css';

const LEVELS: Readonly<Record<Level, string>> = {
  ncaa: 'College (NCAA)',
  nfhs: 'High school (NFHS)',
  nfl: 'Professional (NFL)',
};

/** What the numbers of this library depend on, said in words. */
export function StaffSettings() {
  const { data: library } = useLibrary();
  const { data: chosen } = useSettings();
  if (!library || !chosen) return null;
  const change = (next: Parameters<typeof playbookCalls.changeSettings>[0]) =>
    gesture(() => playbookCalls.changeSettings(next));
  return (
    <dl className={classes.settings}>
      <dt>Team</dt>
      <dd>{library.team}</dd>
      <dt>Rules</dt>
      <dd>
        {LEVELS[library.level]}
        <small>
          Hash marks, kickoff and touchback spots, and whose yards a sack costs, follow the level.
        </small>
      </dd>
      <dt>Success</dt>
      <dd>
        <Select
          aria-label="Success"
          data={[...SUCCESS_VARIANTS]}
          value={chosen.success}
          disabled={library.readOnly}
          allowDeselect={false}
          onChange={(success) => success && void change({ success: success as SuccessVariant })}
        />
        <small>{successInWords(chosen.success)}</small>
      </dd>
      <dt>Explosive</dt>
      <dd>
        <Group gap="xs">
          <NumberInput
            label="Run, yards"
            w={110}
            min={1}
            max={99}
            disabled={library.readOnly}
            value={chosen.explosiveRunYards}
            onChange={(yards) => typeof yards === 'number' && void change({ explosiveRunYards: yards })}
          />
          <NumberInput
            label="Pass, yards"
            w={110}
            min={1}
            max={99}
            disabled={library.readOnly}
            value={chosen.explosivePassYards}
            onChange={(yards) => typeof yards === 'number' && void change({ explosivePassYards: yards })}
          />
        </Group>
        <small>{explosiveInWords(chosen)}</small>
      </dd>
      <dt>Few plays</dt>
      <dd>
        fewer than {SMALL_SAMPLE}
        <small>Rates and means over fewer plays are marked, and never lead a sorted table.</small>
      </dd>
      <dt>Library</dt>
      <dd>
        {library.path}
        {library.readOnly && <small>Open to read only.</small>}
      </dd>
    </dl>
  );
}
