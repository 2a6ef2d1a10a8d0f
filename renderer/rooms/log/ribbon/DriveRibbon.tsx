import { useMemo } from 'react';
import type { PlayView } from '../../../../electron/service/views.ts';
import { playInALine } from '../../../parts/play-words.ts';
import { knownPlay } from '../known-play.ts';
import classes from './DriveRibbon.module.css';
import type { DriveGroup } from './drive-groups.ts';
import { layRibbon, lineToGain, type RibbonBar, STRIP, yardNumbers } from './geometry.ts';

const share = (yards: number) => `${(100 * yards) / STRIP}%`;

/** The drive to scale on the field, each play a bar from spot to spot; a bar is a button to its play. */
export function DriveRibbon(props: {
  readonly group: DriveGroup;
  readonly play: PlayView;
  readonly onChoose: (playId: string) => void;
}) {
  const { group, play, onChoose } = props;
  const ribbon = useMemo(() => layRibbon(group.plays), [group]);
  const gain = lineToGain(play);
  const byId = new Map(group.plays.map((each) => [each.playId, each]));
  return (
    <div className={classes.field} data-testid="drive-ribbon">
      <div className={classes.turf} aria-hidden>
        {yardNumbers().map(({ place, label }) => (
          <span
            key={place}
            className={classes.yard}
            style={{ left: share(place) }}
            data-mid={label === '50' || undefined}
          >
            {label}
          </span>
        ))}
        {gain !== null && <span className={classes.toGain} style={{ left: share(gain) }} />}
      </div>
      <ol className={classes.bars} aria-label="Plays of the drive">
        {ribbon.bars.map((bar) => {
          const each = byId.get(bar.playId);
          return (
            each && (
              <Bar
                key={bar.playId}
                bar={bar}
                lanes={ribbon.lanes}
                play={each}
                current={bar.playId === play.playId}
                onChoose={onChoose}
              />
            )
          );
        })}
      </ol>
      {ribbon.unplaced.length > 0 && (
        <span className={classes.unplaced}>
          {ribbon.unplaced.length} {ribbon.unplaced.length === 1 ? 'play has' : 'plays have'} no spot yet
        </span>
      )}
    </div>
  );
}

function Bar(props: {
  readonly bar: RibbonBar;
  readonly lanes: number;
  readonly play: PlayView;
  readonly current: boolean;
  readonly onChoose: (playId: string) => void;
}) {
  const { bar, lanes, play, current, onChoose } = props;
  const words = `Play ${play.record.playNumber ?? ''}: ${playInALine(knownPlay(play))}${bar.predicted ? ', spot predicted' : ''}`;
  return (
    <li
      className={classes.lane}
      style={{
        left: share(Math.min(bar.from, bar.to)),
        width: share(Math.abs(bar.to - bar.from)),
        top: `${(100 * bar.lane) / lanes}%`,
        height: `${100 / lanes}%`,
      }}
    >
      <button
        type="button"
        className={classes.bar}
        data-kind={bar.kind}
        data-predicted={bar.predicted || undefined}
        data-back={bar.to < bar.from || undefined}
        aria-current={current || undefined}
        aria-label={words}
        title={words}
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => onChoose(bar.playId)}
      >
        {bar.scored && <i className={classes.flag}>TD</i>}
        {bar.lost && <i className={classes.flag}>×</i>}
      </button>
    </li>
  );
}
