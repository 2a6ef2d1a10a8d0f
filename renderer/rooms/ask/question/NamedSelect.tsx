import type { VersatileSelectorProps } from 'react-querybuilder';

interface Choice {
  readonly name: string;
  readonly label: string;
}

type Choices = readonly (Choice | { readonly label: string; readonly options: readonly Choice[] })[];

/** The builder's choice of a field, a comparison or a joining word, with a name that a screen reader says. */
export function NamedSelect(props: VersatileSelectorProps) {
  return (
    <select
      className={props.className}
      aria-label={props.title}
      value={String(props.value ?? '')}
      disabled={props.disabled}
      onChange={(event) => props.handleOnChange(event.target.value)}
    >
      {(props.options as Choices).map((choice) =>
        'options' in choice ? (
          <optgroup key={choice.label} label={choice.label}>
            {choice.options.map((each) => (
              <option key={each.name} value={each.name}>
                {each.label}
              </option>
            ))}
          </optgroup>
        ) : (
          <option key={choice.name} value={choice.name}>
            {choice.label}
          </option>
        ),
      )}
    </select>
  );
}
