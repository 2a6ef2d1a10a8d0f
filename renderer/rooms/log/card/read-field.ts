import { readLogLine, type VocabularyIndex } from '../../../../football/log-line/index.ts';
import type { PlayRecord } from '../../../../football/play.ts';
import type { FieldValue } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';

/** What a text typed into one field says. */
export type FieldReading =
  | { readonly kind: 'value'; readonly value: FieldValue }
  | { readonly kind: 'newTerm'; readonly name: string }
  | { readonly kind: 'unclear'; readonly message: string; readonly choices: readonly string[] };

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/**
 * Reads a field's text by the rules of the log line, so that a field understands what the line understands.
 * An empty text takes the value away.
 */
export function readField(
  field: FieldDefinition,
  text: string,
  index: VocabularyIndex,
  play: PlayRecord,
): FieldReading {
  const typed = text.trim();
  if (typed === '') return { kind: 'value', value: { kind: 'clear' } };
  if (field.kind === 'text') return { kind: 'value', value: { kind: 'text', text: typed } };
  const reading = readLogLine(`${field.key}:${/[\s",;]/.test(typed) ? quoted(typed) : typed}`, index, {
    play,
  });
  const change = reading.ready ? reading.changes.find((each) => each.field === field.key) : undefined;
  if (change) return { kind: 'value', value: change.value };
  const [token] = reading.tokens;
  const choices = (token?.candidates ?? [])
    .filter((each) => each.kind === 'value')
    .map((each) => each.display);
  const isNew = token?.candidates.some((each) => each.kind === 'newTerm' && each.field === field.key);
  if (isNew && choices.length === 0) return { kind: 'newTerm', name: typed };
  return {
    kind: 'unclear',
    message: reading.problems[0]?.message ?? `${field.label} does not take “${typed}”.`,
    choices,
  };
}
