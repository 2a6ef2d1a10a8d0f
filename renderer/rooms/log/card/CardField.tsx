import type { KeyboardEvent } from 'react';
import { formatPlain } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import type { Shown, Standing } from '../known-play.ts';
import classes from './CardField.module.css';

const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  entered: 'entered',
  predicted: 'predicted',
  missing: 'missing',
};

/** A field on the card: entered, predicted (in italics on a broken line, with its word) or missing. */
export function CardField(props: {
  readonly field: FieldDefinition;
  readonly shown: Shown;
  readonly saving: boolean;
  readonly tabIndex: 0 | -1;
  readonly onEdit: (begin?: string) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}) {
  const { field, shown, saving, tabIndex, onEdit, onKeyDown } = props;
  const text = formatPlain(field, shown.value);
  const standing = saving ? 'saving' : STANDING_WORDS[shown.standing];
  return (
    <button
      type="button"
      className={classes.field}
      data-card-field={field.key}
      data-standing={shown.standing}
      data-saving={saving || undefined}
      tabIndex={tabIndex}
      aria-label={`${field.label}: ${text || 'missing'}${shown.standing === 'entered' && !saving ? '' : `, ${standing}`}`}
      title={`${field.help}${shown.standing === 'predicted' ? ' Predicted from the play before.' : ''}`}
      disabled={field.home === 'derived'}
      onClick={() => onEdit()}
      onKeyDown={onKeyDown}
    >
      <span className={classes.label}>{field.label}</span>
      <span className={classes.value}>
        {text || '–'}
        {shown.value !== null && field.unit && typeof shown.value === 'number' && field.kind === 'number' && (
          <small> {field.unit}</small>
        )}
      </span>
      {shown.standing === 'predicted' && !saving && <span className={classes.mark}>pred</span>}
      {saving && <span className={classes.mark}>saving</span>}
    </button>
  );
}
