import type { Suggestion } from '../../../../football/log-line/index.ts';
import classes from './SuggestionRow.module.css';

/** What the word could become, likeliest first; Tab takes the one that is marked. */
export function SuggestionRow(props: {
  readonly suggestions: readonly Suggestion[];
  readonly picked: number;
  readonly onTake: (suggestion: Suggestion) => void;
}) {
  const { suggestions, picked, onTake } = props;
  if (suggestions.length === 0) return null;
  return (
    <section className={classes.row} aria-label="Suggestions" data-testid="line-suggestions">
      <span className={classes.lead}>
        <kbd>Tab</kbd>
      </span>
      {suggestions.map((suggestion, index) => (
        <button
          key={`${suggestion.field} ${suggestion.insert}`}
          type="button"
          className={classes.offer}
          tabIndex={-1}
          data-picked={index === picked || undefined}
          onMouseDown={(event) => event.preventDefault()}
          onClick={() => onTake(suggestion)}
        >
          {suggestion.display}
          {suggestion.share !== undefined && suggestion.share >= 0.005 && (
            <small> {Math.round(100 * suggestion.share)} %</small>
          )}
        </button>
      ))}
    </section>
  );
}
