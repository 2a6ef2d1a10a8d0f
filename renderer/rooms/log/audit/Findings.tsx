import { Button } from '@mantine/core';
import { IconAlertTriangle } from '@tabler/icons-react';
import type { PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import type { Finding, Fix } from '../../../../football/audit/finding.ts';
import { type FieldValue, formatPlain } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { termId } from '../../../../football/vocabulary/terms.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { changePlays } from '../../../service/gesture.ts';
import { playCalls } from '../../../service/play-calls.ts';
import classes from './Findings.module.css';

/** What cannot be right about a play, what would settle it, and the one key that does. Nothing is changed unasked. */
export function Findings(props: {
  readonly findings: readonly Finding[];
  readonly play: PlayView;
  readonly plays: readonly PlayView[];
  readonly vocabulary: VocabularyView;
  readonly goTo: (playId: string) => void;
}) {
  const { findings, play, plays, vocabulary, goTo } = props;
  const here = findings.filter((finding) => finding.playId === play.playId);
  const fix = here.find((finding) => finding.fix)?.fix;
  const at = plays.findIndex((each) => each.playId === play.playId);
  const wrong = new Set(findings.map((finding) => finding.playId));
  const next = [...plays.slice(at + 1), ...plays.slice(0, at)].find((each) => wrong.has(each.playId));
  const mend = (chosen: Fix) => {
    const field = vocabulary.fields.find((each) => each.key === chosen.field);
    if (!field) return;
    void changePlays(() =>
      playCalls.tag({
        playId: chosen.playId,
        changes: [{ field: field.key, value: fixValue(field, chosen.value) }],
      }),
    );
  };
  useCommand(
    'audit.fix',
    () => fix && mend(fix),
    () => fix !== undefined,
  );
  useCommand(
    'audit.next',
    () => next && goTo(next.playId),
    () => next !== undefined,
  );
  if (here.length === 0) return null;
  return (
    <section className={classes.findings} aria-label="What cannot be right" aria-live="polite">
      {here.slice(0, 2).map((finding) => (
        <div key={`${finding.code} ${finding.fields.join()}`} className={classes.finding}>
          <IconAlertTriangle size={14} aria-hidden />
          <p>
            {finding.message} <span>{finding.settle}</span>
          </p>
          {finding.fix && (
            <Button size="compact-xs" variant="default" onClick={() => finding.fix && mend(finding.fix)}>
              {fixWords(finding.fix, vocabulary, plays)} {finding.fix === fix && <kbd>U</kbd>}
            </Button>
          )}
        </div>
      ))}
    </section>
  );
}

function fixValue(field: FieldDefinition, value: Fix['value']): FieldValue {
  if (typeof value === 'boolean') return { kind: 'flag', flag: value };
  if (typeof value === 'number') return { kind: 'number', number: value };
  return field.kind === 'text'
    ? { kind: 'text', text: value }
    : { kind: 'term', termId: termId(field.key, value), name: value };
}

function fixWords(fix: Fix, vocabulary: VocabularyView, plays: readonly PlayView[]): string {
  const field = vocabulary.fields.find((each) => each.key === fix.field);
  const number = plays.find((each) => each.playId === fix.playId)?.record.playNumber;
  const value = field ? formatPlain(field, fix.value) : String(fix.value);
  return `Play ${number ?? ''}: ${field?.label ?? fix.field} ${value}`;
}
