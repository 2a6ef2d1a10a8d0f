import { Button, Select } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ReportKind } from '../../../../football/report/template.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { Dialog } from '../../../parts/Dialog.tsx';
import { JobReport } from '../../../parts/jobs/JobReport.tsx';
import { useRoomJobs } from '../../../parts/jobs/use-room-jobs.ts';
import { usePathChooser } from '../../../parts/paths/usePathChooser.tsx';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { problemFrom } from '../../../service/http.ts';
import { tellDone } from '../../../service/problems.ts';
import { useGames, useLibrary } from '../../../service/queries.ts';
import { reportCalls } from '../../../service/report-calls.ts';
import { readSetting, writeSetting } from '../../../state/settings.ts';
import classes from '../ask.module.css';
import type { AskViewProps } from '../views.ts';
import { ReportPage } from './ReportPage.tsx';
import reportClasses from './reports.module.css';
import { TemplateEditor } from './TemplateEditor.tsx';

const KINDS: readonly { value: ReportKind; label: string }[] = [
  { value: 'opponent', label: 'Scouting an opponent' },
  { value: 'game', label: 'After our game' },
  { value: 'calls', label: 'Call sheet draft' },
];

/** Reports: choose what it is on, read it with its film a key away, and take it along. */
export default function ReportsView({ vocabulary }: AskViewProps) {
  const [kind, setKind] = useState<ReportKind>(readSetting('report.kind', 'opponent'));
  const [abouts, setAbouts] = useState<Partial<Record<ReportKind, string>>>({});
  const [template, setTemplate] = useState<string | null>(null);
  const [open, setOpen] = useState<'template' | 'write' | null>(null);
  const { choose, dialog } = usePathChooser();
  const { data: games = [] } = useGames();
  const { data: library } = useLibrary();
  const { data: known } = useQuery({ queryKey: ['numbers', 'reportTeams'], queryFn: reportCalls.teams });
  const { data: templates = [] } = useQuery({
    queryKey: ['numbers', 'reportTemplates'],
    queryFn: reportCalls.templates,
  });
  const choices =
    kind === 'opponent' ? (known?.teams ?? []) : kind === 'game' ? games.map((g) => g.title) : [];
  const about = kind === 'calls' ? null : (abouts[kind] ?? choices[0] ?? null);
  const ofKind = templates.filter((t) => t.kind === kind);
  const chosen = ofKind.find((t) => t.id === template) ?? ofKind[0];
  const asked = { kind, about, template: chosen?.id ?? null };
  const ready = kind === 'calls' || about !== null;
  const { data: report, error } = useQuery({
    queryKey: ['numbers', 'report', asked, chosen],
    queryFn: () => reportCalls.make(asked),
    enabled: ready && chosen !== undefined,
  });
  const { jobs, putAway } = useRoomJobs((job) => job.kind === 'write-report');

  const write = async (to: string | undefined, film: boolean) => {
    if (!to) return;
    setOpen(null);
    if (await gesture(() => reportCalls.write(asked, to, film)))
      void cache.invalidateQueries({ queryKey: keys.jobs });
  };
  const fileName = (report?.title ?? 'report').replace(/[\\/:*?"<>|]+/g, '').replace(/\s+/g, ' ');
  const asFile = async (ending: '.pdf' | '.zip', film: boolean) => {
    const suggested = `${fileName}${ending}`;
    const paths = await choose({ for: 'save', title: 'Write the report', suggested, endings: [ending] });
    await write(paths?.[0], film);
  };
  const asFolder = async (film: boolean) => {
    const paths = await choose({
      for: 'open',
      kind: 'folder',
      title: 'Folder to write the report into',
      many: false,
    });
    if (paths?.[0]) await write(`${paths[0]}/${fileName}`, film);
  };
  const cut = async () => {
    const made = await gesture(() => reportCalls.cutups(asked));
    if (!made) return;
    void cache.invalidateQueries({ queryKey: keys.cutups, exact: true });
    tellDone(
      `${made.cutups} cut-ups with ${made.clips} clips stand in the Teach room, in “${made.folder}”. One undo takes them back.`,
    );
  };
  useCommand('ask.reportPdf', () => report && void asFile('.pdf', false));
  useCommand('ask.reportBundle', () => report && setOpen('write'));
  useCommand('ask.reportCutups', () => report && void cut());
  useCommand('ask.reportTemplate', () => chosen && setOpen('template'));

  return (
    <div className={classes.barAndBody} data-print-flow>
      <div data-noprint>
        <div className={reportClasses.bar}>
          <Select
            label="Report"
            data={KINDS}
            value={kind}
            allowDeselect={false}
            onChange={(next) => {
              if (!next) return;
              setKind(next);
              writeSetting('report.kind', next);
            }}
          />
          {kind !== 'calls' && (
            <Select
              label={kind === 'opponent' ? 'Opponent' : 'Game'}
              data={choices}
              value={about}
              searchable
              allowDeselect={false}
              onChange={(next) => next && setAbouts({ ...abouts, [kind]: next })}
            />
          )}
          <Select
            label="Template"
            data={ofKind.map((t) => ({ value: t.id, label: t.name }))}
            value={chosen?.id ?? null}
            allowDeselect={false}
            onChange={setTemplate}
          />
          <Button
            onClick={() => setOpen('template')}
            disabled={!chosen}
            title="Change the template (Shift+T)"
          >
            Template
          </Button>
          <Button onClick={() => void cut()} disabled={!report} title="A cut-up of each section (Shift+K)">
            Cut-ups
          </Button>
          <Button onClick={() => setOpen('write')} disabled={!report} title="A folder or zip (Shift+B)">
            Folder
          </Button>
          <Button
            variant="filled"
            onClick={() => void asFile('.pdf', false)}
            disabled={!report}
            title="A PDF to print (Shift+P)"
          >
            PDF
          </Button>
        </div>
        {jobs.map((job) => (
          <JobReport
            key={job.jobId}
            job={job}
            outcome={
              job.state === 'done' ? `written to ${(job.report as { path?: string })?.path}` : job.state
            }
            onPutAway={() => putAway(job.jobId)}
          />
        ))}
      </div>
      {report ? (
        <ReportPage report={report} />
      ) : (
        <p className={classes.empty}>
          {error
            ? problemFrom(error).message
            : ready
              ? ''
              : kind === 'opponent'
                ? 'No opponent is known yet: name the opponent of a game in the Film room, or log who had the ball.'
                : 'No game is in this library yet.'}
        </p>
      )}
      <Dialog
        opened={open === 'template' && chosen !== undefined}
        title="Template of the report"
        size="min(1240px, 96vw)"
        onClose={() => setOpen(null)}
      >
        {chosen && (
          <TemplateEditor
            key={chosen.id}
            template={chosen}
            fields={vocabulary.fields}
            onDone={(id) => {
              setTemplate(id);
              setOpen(null);
            }}
          />
        )}
      </Dialog>
      <Dialog
        opened={open === 'write'}
        title="Write the report to take along"
        size="min(620px, 92vw)"
        onClose={() => setOpen(null)}
      >
        <div className={reportClasses.form}>
          <p>
            It opens in any browser, without a network.{' '}
            <strong>
              With film, film of student athletes leaves the library{library ? ` of ${library.team}` : ''}
            </strong>
            : whoever gets the folder can watch it and pass it on. Numbers only leaves the film here.
          </p>
          <div className={reportClasses.buttons}>
            <Button onClick={() => void asFolder(false)}>Folder, numbers only</Button>
            <Button onClick={() => void asFile('.zip', false)}>Zip, numbers only</Button>
            <Button onClick={() => void asFolder(true)}>Folder with film</Button>
            <Button onClick={() => void asFile('.zip', true)}>Zip with film</Button>
          </div>
        </div>
      </Dialog>
      {dialog}
    </div>
  );
}
