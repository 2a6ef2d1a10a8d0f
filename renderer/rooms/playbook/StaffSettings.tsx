import { SMALL_SAMPLE } from '../../../football/metrics/metric.ts';
import {
  DEFAULT_METRIC_SETTINGS,
  explosiveInWords,
  successInWords,
} from '../../../football/metrics/settings.ts';
import type { Level } from '../../../football/play.ts';
import { useLibrary } from '../../service/queries.ts';
import classes from './playbook.module.css';

const LEVELS: Readonly<Record<Level, string>> = {
  ncaa: 'College (NCAA)',
  nfhs: 'High school (NFHS)',
  nfl: 'Professional (NFL)',
};

/** What the numbers of this library depend on, said in words. */
export function StaffSettings() {
  const { data: library } = useLibrary();
  if (!library) return null;
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
      <dd>{successInWords(DEFAULT_METRIC_SETTINGS.success)}</dd>
      <dt>Explosive</dt>
      <dd>{explosiveInWords(DEFAULT_METRIC_SETTINGS)}</dd>
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
