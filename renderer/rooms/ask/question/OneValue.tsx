import { Autocomplete, Group, Text } from '@mantine/core';
import { useMemo } from 'react';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import text from './question.module.css';
import { foundOffers, offeredValues, shownValue, type ValueWords, valueHint } from './value-words.ts';

interface OneValueProps {
  readonly field: FieldDefinition;
  readonly words: ValueWords;
  readonly label: string;
  readonly value: unknown;
  readonly onChange: (value: string | boolean) => void;
  readonly wrong: boolean;
}

/** One value of a condition: typed, and completed over what the playbook knows. */
export function OneValue({ field, words, label, value, onChange, wrong }: OneValueProps) {
  const offers = useMemo(() => {
    const seen = new Set<string>();
    return offeredValues(field, words).filter((offer) => !seen.has(offer.value) && seen.add(offer.value));
  }, [field, words]);
  if (field.kind === 'flag') {
    return (
      <select
        className={text.select}
        aria-label={label}
        value={value === false || value === 'false' ? 'no' : 'yes'}
        onChange={(event) => onChange(event.target.value === 'yes')}
      >
        <option value="yes">yes</option>
        <option value="no">no</option>
      </select>
    );
  }
  return (
    <Autocomplete
      size="xs"
      aria-label={label}
      className={text.value}
      placeholder={valueHint(field)}
      value={shownValue(field, value)}
      onChange={onChange}
      error={wrong}
      data={offers.map((offer) => offer.value)}
      filter={({ search }) =>
        foundOffers(offers, search).map(({ value: offer }) => ({ value: offer, label: offer }))
      }
      renderOption={({ option }) => <OfferLine offer={offers.find((each) => each.value === option.value)} />}
      maxDropdownHeight={280}
      comboboxProps={{ width: 'max-content', position: 'bottom-start' }}
      selectFirstOptionOnChange={false}
    />
  );
}

export function OfferLine({
  offer,
}: {
  readonly offer: { value: string; aside: string; depth: number } | undefined;
}) {
  if (!offer) return null;
  return (
    <Group gap="xs" wrap="nowrap" pl={offer.depth * 14}>
      <span>{offer.value}</span>
      {offer.aside !== '' && (
        <Text component="span" size="xs" c="dimmed">
          {offer.aside}
        </Text>
      )}
    </Group>
  );
}
