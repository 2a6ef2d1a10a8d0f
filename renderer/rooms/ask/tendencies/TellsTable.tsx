import { Checkbox } from '@mantine/core';
import type { TellsView, TellView } from '../../../../electron/service/tendency-views.ts';
import { SMALL_SAMPLE } from '../../../../football/metrics/metric.ts';
import { askActions } from '../ask-store.ts';
import { percent } from './ShareRow.tsx';
import classes from './tendencies.module.css';
import { chooseTendency } from './tendency-store.ts';

const SHOWN = 12;
const PROMISED = 0.05;

export function TellsTable({ view }: { readonly view: TellsView }) {
  const real = view.tells.filter((tell) => tell.adjusted <= PROMISED).length;
  return (
    <>
      <Checkbox
        label="Compare only plays of the same down and distance group"
        checked={view.withinSituation}
        onChange={(event) => chooseTendency({ withinSituation: event.currentTarget.checked })}
      />
      <p className={classes.verdict}>
        {real === 0
          ? `No tag stands out from chance among the ${view.looked} tags and pairs looked at.`
          : `${real} of the ${view.looked} tags and pairs looked at stand out from chance.`}{' '}
        The chance column is corrected for looking at all of them (calls shuffled {view.shuffles} times).
      </p>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">Tag</th>
            <th scope="col">Call it turns</th>
            <th scope="col">With it</th>
            <th scope="col">Without it</th>
            <th scope="col">Bits</th>
            <th scope="col">Chance</th>
          </tr>
        </thead>
        <tbody>
          {view.tells.slice(0, SHOWN).map((tell) => (
            <TellRow key={nameOf(tell)} tell={tell} view={view} />
          ))}
        </tbody>
      </table>
    </>
  );
}

const nameOf = (tell: TellView) => tell.tags.map(({ label, value }) => `${label} ${value}`).join(' + ');

function TellRow({ tell, view }: { readonly tell: TellView; readonly view: TellsView }) {
  const name = nameOf(tell);
  const call = view.callNames[tell.turns] ?? '';
  const count = tell.counts[tell.turns]!;
  const other = tell.otherCounts[tell.turns]!;
  const small = tell.plays.length < SMALL_SAMPLE;
  return (
    <tr data-chance={tell.adjusted > PROMISED || undefined}>
      <th scope="row">{name}</th>
      <td>{call}</td>
      <td>
        <strong>{percent(count / tell.plays.length)}</strong>{' '}
        <button
          type="button"
          className={classes.count}
          aria-label={`Play ${tell.plays.length} plays: ${name}`}
          onClick={() =>
            askActions.play(
              name,
              tell.plays.map((at) => view.playIds[at]!),
            )
          }
        >
          {count}{' '}
          <span className={small ? classes.small : undefined}>
            of {small ? 'only ' : ''}
            {tell.plays.length}
          </span>
        </button>
      </td>
      <td>
        {percent(other / tell.others)} <span className={classes.soft}>of {tell.others}</span>
      </td>
      <td>{tell.bits.toFixed(3)}</td>
      <td>
        {tell.adjusted < 0.005 ? 'below 0.5 %' : percent(tell.adjusted)}
        {tell.adjusted > PROMISED && <span className={classes.small}> may be chance</span>}
      </td>
    </tr>
  );
}
