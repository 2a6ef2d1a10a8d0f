import { TagsInput } from '@mantine/core';
import { useMemo } from 'react';
import type { ValueEditorProps } from 'react-querybuilder';
import { FieldSet } from '../../../../football/question/fieldset.ts';
import { areComparable } from '../../../../football/question/kinds.ts';
import { STEPS, splitStep, stepKey } from '../../../../football/question/neighbour.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { OfferLine, OneValue } from './OneValue.tsx';
import { arityOf, valueFor } from './operator-words.ts';
import text from './question.module.css';
import { foundOffers, offeredValues, shownValue, type ValueWords } from './value-words.ts';

/** What the builder hands to its parts. */
export interface BuilderContext {
  readonly words: ValueWords;
  readonly fields: ReadonlyMap<string, FieldDefinition>;
  /** place of the condition that cannot be asked yet, joined by `.` */
  readonly wrongAt: string | null;
}

/** The value side of a condition, as its operator takes it: none, one, two limits, or a list. */
export function ValueEditor(props: ValueEditorProps) {
  const context = props.context as BuilderContext;
  const field = context.fields.get(props.field);
  if (!field) return null;
  const wrong = context.wrongAt === props.path.join('.');
  const value = valueFor(props.operator, props.value);
  const shared = { field, words: context.words, wrong };
  switch (arityOf(props.operator)) {
    case 'none':
      return null;
    case 'one':
      return (
        <OneValue {...shared} label={`${field.label}, value`} value={value} onChange={props.handleOnChange} />
      );
    case 'two': {
      const [low, high] = value as [unknown, unknown];
      return (
        <span className={text.range}>
          <OneValue
            {...shared}
            label={`${field.label}, from`}
            value={low}
            onChange={(next) => props.handleOnChange([next, high])}
          />
          <span>to</span>
          <OneValue
            {...shared}
            label={`${field.label}, to`}
            value={high}
            onChange={(next) => props.handleOnChange([low, next])}
          />
        </span>
      );
    }
    case 'field':
      return (
        <select
          className={text.select}
          aria-label={`${field.label}, other field`}
          value={String(value)}
          onChange={(event) => props.handleOnChange(event.target.value)}
        >
          <option value="">choose a field</option>
          {otherFields(field, context.words.vocabulary.fields).map((other) => (
            <option key={other.key} value={other.key}>
              {other.label}
            </option>
          ))}
        </select>
      );
    case 'list':
      return <ValueList {...shared} values={value as unknown[]} onChange={props.handleOnChange} />;
  }
}

/** What a field can be held against, the same field of the neighbours first. */
function otherFields(field: FieldDefinition, fields: readonly FieldDefinition[]): FieldDefinition[] {
  const set = FieldSet.of(fields);
  const { key } = splitStep(field.key);
  const own = STEPS.flatMap((step) => set.get(stepKey(step, key)) ?? []);
  const others = [
    ...fields,
    ...STEPS.flatMap((step) => fields.flatMap((f) => set.get(stepKey(step, f.key)) ?? [])),
  ];
  return [...own, ...others.filter((f) => !own.includes(f))].filter(
    (other) => other.key !== field.key && areComparable(field, other),
  );
}

interface ValueListProps {
  readonly field: FieldDefinition;
  readonly words: ValueWords;
  readonly wrong: boolean;
  readonly values: readonly unknown[];
  readonly onChange: (values: string[]) => void;
}

function ValueList({ field, words, wrong, values, onChange }: ValueListProps) {
  const offers = useMemo(() => offeredValues(field, words), [field, words]);
  return (
    <TagsInput
      size="xs"
      className={text.value}
      aria-label={`${field.label}, values`}
      placeholder={values.length === 0 ? 'type or choose, Enter' : undefined}
      value={values.map((value) => shownValue(field, value))}
      onChange={onChange}
      error={wrong}
      data={[...new Set(offers.map((offer) => offer.value))]}
      filter={({ search }) => foundOffers(offers, search).map(({ value }) => ({ value, label: value }))}
      renderOption={({ option }) => <OfferLine offer={offers.find((each) => each.value === option.value)} />}
      maxDropdownHeight={280}
      comboboxProps={{ width: 'max-content', position: 'bottom-start' }}
    />
  );
}
