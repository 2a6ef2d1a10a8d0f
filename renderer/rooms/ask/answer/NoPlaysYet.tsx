import { Link } from 'wouter';
import classes from '../ask.module.css';

/** The room of a library without plays. */
export function NoPlaysYet() {
  return (
    <div className={classes.empty}>
      <h2>There are no plays to ask about yet.</h2>
      <p>
        Bring film in, or a breakdown sheet, in the <Link href="/film">Film room</Link>; then log plays in the{' '}
        <Link href="/log">Log room</Link>. Whatever is tagged can be asked for here at once.
      </p>
    </div>
  );
}
