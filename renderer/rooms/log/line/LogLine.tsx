import { useCommand } from '../../../commands/Commands.tsx';
import { AskChoices } from './AskChoices.tsx';
import classes from './LogLine.module.css';
import { ReadingChips } from './ReadingChips.tsx';
import { SuggestionRow } from './SuggestionRow.tsx';
import { useLineCommands } from './use-line-commands.ts';
import type { LogLineState } from './use-log-line.ts';

/** A whole play in one line; under it, what each word was understood as and what could come next. */
export function LogLine(props: {
  readonly line: LogLineState;
  readonly label: string;
  readonly onNext: () => void;
  readonly disabled: boolean;
}) {
  const { line, label, onNext, disabled } = props;
  useLineCommands(line, onNext);
  useCommand('line.focus', () => line.input.current?.focus());
  const { suggestions, picked, reading, asking } = line;
  return (
    <section className={classes.line} aria-label="Log line">
      <div className={classes.entry}>
        <label className={classes.label} htmlFor="log-line">
          {label}
        </label>
        <input
          id="log-line"
          ref={line.input}
          className={classes.input}
          data-keys={line.text === '' ? 'log-line-empty' : 'log-line'}
          data-testid="log-line"
          value={line.text}
          disabled={disabled}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          placeholder="2&7 -35 11 trips c:smash c3 sky pass c g12 @84   —  any order, Enter logs it"
          aria-describedby="log-line-said"
          aria-invalid={reading !== null && line.text !== '' && !reading.ready}
          onChange={(event) =>
            line.onText(
              event.currentTarget.value,
              event.currentTarget.selectionStart ?? event.currentTarget.value.length,
            )
          }
          onSelect={(event) => line.onCursor(event.currentTarget.selectionStart ?? 0)}
        />
        <LineState line={line} />
      </div>
      <div id="log-line-said" className={classes.said}>
        {reading && line.text !== '' ? (
          <ReadingChips reading={reading} asking={asking} />
        ) : (
          <span className={classes.hint}>
            <kbd>Enter</kbd> log and next <kbd>Shift+Enter</kbd> log and stay <kbd>Esc</kbd> film keys{' '}
            <kbd>Alt</kbd>+film key while typing <kbd>↑</kbd> bring back this play’s line
          </span>
        )}
      </div>
      <div className={classes.below}>
        {asking ? (
          <AskChoices token={asking} onChoose={line.choose} />
        ) : (
          <SuggestionRow suggestions={suggestions} picked={picked} onTake={line.take} />
        )}
      </div>
    </section>
  );
}

function LineState({ line }: { readonly line: LogLineState }) {
  const words = line.pending
    ? `saving: ${line.pending}`
    : line.refusal
      ? line.refusal
      : line.saved
        ? `play ${line.saved.playNumber ?? ''} saved`
        : '';
  const state = line.pending ? 'pending' : line.refusal ? 'refused' : 'saved';
  return (
    <output className={classes.state} data-state={state} data-testid="line-state" title={words}>
      {words}
    </output>
  );
}
