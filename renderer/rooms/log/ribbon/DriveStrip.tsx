import classes from './DriveStrip.module.css';
import { type DriveGroup, driveEnd } from './drive-groups.ts';

/** The whole game in one line: each drive a button as wide as its plays are many, each play a mark in it. */
export function DriveStrip(props: {
  readonly groups: readonly DriveGroup[];
  readonly current: number;
  readonly playId: string;
  readonly ours: string | null;
  readonly onChoose: (playId: string) => void;
}) {
  return (
    <ol className={classes.strip} aria-label="Drives of the game">
      {props.groups.map((group, index) => {
        const first = group.plays.find((play) => !play.logged) ?? group.plays[0]!;
        const name = group.drive === null ? 'Kick' : `Drive ${group.drive}`;
        const end = driveEnd(group);
        const label = [name, group.team, `${group.plays.length} plays`, end].filter(Boolean).join(', ');
        return (
          <li key={group.key} className={classes.item} style={{ flexGrow: group.plays.length }}>
            <button
              type="button"
              className={classes.drive}
              aria-current={index === props.current || undefined}
              aria-label={label}
              title={label}
              data-theirs={(group.team !== null && group.team !== props.ours) || undefined}
              onMouseDown={(event) => event.preventDefault()}
              onClick={() => props.onChoose(index === props.current ? group.plays[0]!.playId : first.playId)}
            >
              <span className={classes.name}>
                {group.drive ?? 'K'}
                {end && group.plays.length > 3 && <small>{end}</small>}
              </span>
              <span className={classes.plays} aria-hidden>
                {group.plays.map((play) => (
                  <i
                    key={play.playId}
                    data-logged={play.logged || undefined}
                    data-current={play.playId === props.playId || undefined}
                  />
                ))}
              </span>
            </button>
          </li>
        );
      })}
    </ol>
  );
}
