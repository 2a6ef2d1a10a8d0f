import type { PlayView } from '../../../../electron/service/views.ts';
import { formatSpot } from '../../../../football/values.ts';
import { downAndDistance, quarterAndClock } from '../../../parts/play-words.ts';
import { knownPlay } from '../known-play.ts';
import classes from './CardHead.module.css';

const SITUATION = ['down', 'distance', 'yardsToGoal'] as const;

/** Which play it is, and the situation in the words of the trade. */
export function CardHead({ play, total }: { readonly play: PlayView; readonly total: number }) {
  const known = knownPlay(play);
  const guessed = SITUATION.some(
    (key) => known[key] !== null && (play.record[key] === null || play.predicted.includes(key)),
  );
  return (
    <header className={classes.head}>
      <p className={classes.which}>
        <span>
          Play <strong>{play.record.playNumber ?? '–'}</strong> of {total}
        </span>
        <span>{quarterAndClock(known)}</span>
        <span className={classes.state} data-logged={play.logged || undefined}>
          {play.logged ? '● logged' : '○ not logged'}
        </span>
      </p>
      <h2 className={classes.situation} data-guessed={guessed || undefined}>
        {downAndDistance(known)}
        {known.yardsToGoal !== null && <span>{formatSpot(known.yardsToGoal)}</span>}
        {guessed && <small>predicted</small>}
      </h2>
      {play.predictionReason && <p className={classes.reason}>{play.predictionReason}</p>}
    </header>
  );
}
