import type { CallShare } from '../../../../electron/service/tendency-views.ts';
import { SMALL_SAMPLE } from '../../../../football/metrics/metric.ts';
import { askActions } from '../ask-store.ts';
import classes from './tendencies.module.css';

interface ShareRowProps {
  readonly name: string;
  readonly call: CallShare;
  /** plays of the context */
  readonly of: number;
  readonly playIds: readonly string[];
  /** over the film when its plays run */
  readonly title: string;
  readonly expected?: boolean;
}

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** One call: its share, count and interval; the count opens its plays. */
export function ShareRow({ name, call, of, playIds, title, expected }: ShareRowProps) {
  return (
    <tr>
      <th scope="row">{name}</th>
      {expected && (
        <td>
          <strong>{percent(call.expected)}</strong>
        </td>
      )}
      <td>
        <CountButton call={call} of={of} playIds={playIds} title={title} />
      </td>
      <td className={classes.soft}>
        {of === 0 ? '–' : `${percent(call.wilson[0])} to ${percent(call.wilson[1])}`}
      </td>
    </tr>
  );
}

/** `12 of 31`, marked where the sample is small. */
export function CountButton({ call, of, playIds, title }: Omit<ShareRowProps, 'name' | 'expected'>) {
  const small = of < SMALL_SAMPLE;
  return (
    <button
      type="button"
      className={classes.count}
      disabled={call.count === 0}
      aria-label={`Play ${call.count} of ${of}: ${title}`}
      onClick={() =>
        askActions.play(
          title,
          call.plays.map((at) => playIds[at]!),
        )
      }
    >
      {call.count} {small ? <span className={classes.small}>of only {of}</span> : `of ${of}`}
    </button>
  );
}
