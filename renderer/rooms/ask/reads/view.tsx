import { Select } from '@mantine/core';
import { useState } from 'react';
import type { ReadLine } from '../../../../electron/service/read-views.ts';
import { formatMetric, metricOf } from '../../../../football/metrics/definitions.ts';
import { SMALL_SAMPLE } from '../../../../football/metrics/metric.ts';
import { READ_GRADES, type ReadGrade } from '../../../../football/reads/grade.ts';
import { useReads, useTeams } from '../../../service/study-calls.ts';
import { useStore } from '../../../state/store.ts';
import { askActions, askStore } from '../ask-store.ts';
import classes from '../tendencies/tendencies.module.css';

const WORDS: Readonly<Record<ReadGrade, string>> = {
  right: 'Right read',
  wrong: 'Wrong read',
  'no rule': 'No rule',
  'not tagged': 'Not tagged',
};

/** Throws graded by the playbook's read rules; each number opens its throws. */
export default function ReadsView() {
  const { question } = useStore(askStore);
  const { data: teams } = useTeams();
  const [chosen, setTeam] = useState<string | null>(null);
  const team = chosen ?? teams?.ours ?? '';
  const { data: view, error } = useReads(teams ? { team, where: question.where } : null);
  if (!teams) return null;
  return (
    <div className={classes.page}>
      <h2 className="unseen">Reads</h2>
      <div className={classes.bar} data-noprint>
        <Select
          label="Passes of"
          data={[
            { value: '', label: 'every team' },
            ...teams.teams.map((name) => ({ value: name, label: name })),
          ]}
          value={team}
          onChange={(name) => setTeam(name ?? '')}
          allowDeselect={false}
          w={170}
        />
        <p className={classes.soft}>
          Sacks, scrambles and throwaways are no throw and have no grade. Rules are changed in the Playbook;
          throws are graded anew at once.
        </p>
      </div>
      {error && <p role="alert">{error.message}</p>}
      {view &&
        (view.throws.length === 0 ? (
          <p className={classes.soft}>No throw among the plays of the question.</p>
        ) : (
          <>
            <Grades lines={view.lines} metrics={view.metrics} />
            <Lines title="What the defense did to the key" first="Concept: key" lines={view.byKey} withRule />
            <Lines title="Option routes" first="Concept: leverage" lines={view.byOptionRoute} withRule />
            <Lines title="By passer" first="Passer" lines={view.byPasser} />
            <Lines title="By opponent" first="Opponent" lines={view.byOpponent} />
          </>
        ))}
    </div>
  );
}

type GradeLines = NonNullable<ReturnType<typeof useReads>['data']>['lines'];

function Grades({ lines, metrics }: { readonly lines: GradeLines; readonly metrics: readonly string[] }) {
  return (
    <section className={classes.part} aria-label="Efficiency by read">
      <h3>Efficiency by read</h3>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">Read</th>
            <th scope="col">Throws</th>
            {metrics.map((key) => (
              <th key={key} scope="col">
                {metricOf(key)?.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.grade}>
              <th scope="row">{WORDS[line.grade]}</th>
              <td>
                <Throws title={WORDS[line.grade]} playIds={line.playIds} />
              </td>
              {metrics.map((key) => {
                const base = line.bases[key];
                return (
                  <td key={key}>
                    {formatMetric(metricOf(key)!, line.metrics[key] ?? null)}
                    {base !== undefined && base > 0 && base < SMALL_SAMPLE && (
                      <span className={classes.small}> of only {base}</span>
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface LinesProps {
  readonly title: string;
  readonly first: string;
  readonly lines: readonly ReadLine[];
  readonly withRule?: boolean;
}

function Lines({ title, first, lines, withRule }: LinesProps) {
  if (lines.length === 0) return null;
  return (
    <section className={classes.part} aria-label={title}>
      <h3>{title}</h3>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">{first}</th>
            {withRule && <th scope="col">Ball goes to</th>}
            <th scope="col">Throws</th>
            {READ_GRADES.map((grade) => (
              <th key={grade} scope="col">
                {WORDS[grade]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.name}>
              <th scope="row">{line.name}</th>
              {withRule && <td>{line.detail ?? 'no rule'}</td>}
              <td>
                <Throws title={line.name} playIds={READ_GRADES.flatMap((grade) => line.plays[grade])} />
              </td>
              {READ_GRADES.map((grade) => (
                <td key={grade}>
                  <Throws title={`${line.name}, ${WORDS[grade]}`} playIds={line.plays[grade]} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** A number of throws that opens them. */
function Throws({ title, playIds }: { readonly title: string; readonly playIds: readonly string[] }) {
  return (
    <button
      type="button"
      className={classes.count}
      disabled={playIds.length === 0}
      aria-label={`Play ${playIds.length} throws: ${title}`}
      onClick={() => askActions.play(title, playIds)}
    >
      {playIds.length}
    </button>
  );
}
