import { TextInput } from '@mantine/core';
import { useState } from 'react';
import type { NowField, TendencyRequest } from '../../../../electron/service/tendency-views.ts';
import { problemFrom } from '../../../service/http.ts';
import { useCallsNow } from '../../../service/study-calls.ts';
import { ShareRow } from './ShareRow.tsx';
import classes from './tendencies.module.css';

const ASKED: Readonly<Record<'offense' | 'defense', readonly string[]>> = {
  offense: ['playKind', 'formation', 'concept'],
  defense: ['coverage', 'front', 'pressure'],
};

/** A situation as it is said on the headset, and what they will probably call. */
export function NowPanel({ whose }: { readonly whose: TendencyRequest }) {
  const [given, setGiven] = useState('');
  const { call, ...rest } = whose;
  const calls = [...new Set([call, ...ASKED[whose.side]])].slice(0, 3);
  const { data: view, error } = useCallsNow(given.trim() === '' ? null : { ...rest, calls, given });
  return (
    <section className={classes.part} aria-label="What will they call now">
      <TextInput
        id="tendency-now"
        label="What will they call now?"
        placeholder="2nd & 8, left hash, own 35, 11 personnel"
        value={given}
        onChange={(event) => setGiven(event.currentTarget.value)}
        error={given.trim() !== '' && error ? problemFrom(error).message : undefined}
        autoComplete="off"
        spellCheck={false}
      />
      {given.trim() !== '' && !error && view && (
        <>
          <p className={classes.soft} aria-live="polite">
            {view.said.map(({ label, value }) => `${label}: ${value}`).join(' · ')}
          </p>
          <div className={classes.now}>
            {view.fields.map((field) => (
              <NowList key={field.call} field={field} />
            ))}
          </div>
        </>
      )}
    </section>
  );
}

const SHOWN = 6;

function NowList({ field }: { readonly field: NowField }) {
  const counted = field.calls.reduce((sum, call) => sum + call.count, 0);
  return (
    <div>
      <h4 className={classes.nowHead}>{field.label}</h4>
      <p className={classes.soft}>{field.steps.map(({ label, plays }) => `${label} ${plays}`).join(' › ')}</p>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">Call</th>
            <th scope="col">Expect</th>
            <th scope="col">Counted</th>
            <th scope="col">95 %</th>
          </tr>
        </thead>
        <tbody>
          {field.calls.slice(0, SHOWN).map((call) => (
            <ShareRow
              key={call.call}
              name={call.call}
              call={call}
              of={counted}
              playIds={field.playIds}
              title={`${field.label} ${call.call}`}
              expected
            />
          ))}
        </tbody>
      </table>
      <p className={classes.verdict}>{field.verdict || 'No play has this call tagged.'}</p>
    </div>
  );
}
