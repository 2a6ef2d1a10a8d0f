import type { LogToken } from '../../../../football/log-line/index.ts';
import { isMac } from '../../../commands/Commands.tsx';
import classes from './SuggestionRow.module.css';

/** The ways to settle a word, each with its number; the number is pressed with Alt, since digits are typed. */
export function AskChoices(props: { readonly token: LogToken; readonly onChoose: (index: number) => void }) {
  const { token, onChoose } = props;
  const modifier = isMac ? 'Option' : 'Alt';
  return (
    <section className={classes.row} aria-label={`What does ${token.text} mean?`} data-testid="line-asks">
      <span className={classes.lead}>
        “{token.text}” <kbd>{modifier}</kbd>+
      </span>
      {token.candidates.slice(0, 9).map((candidate, index) => (
        <button
          key={`${candidate.kind}:${candidate.insert}`}
          type="button"
          className={classes.offer}
          tabIndex={-1}
          aria-keyshortcuts={`Alt+${index + 1}`}
          onMouseDown={(event) => event.preventDefault()}
          onClick={() => onChoose(index)}
        >
          <kbd>{index + 1}</kbd> {candidate.display}
        </button>
      ))}
    </section>
  );
}
