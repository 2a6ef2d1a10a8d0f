import { Autocomplete, TextInput } from '@mantine/core';
import { type KeyboardEvent, useEffect, useState } from 'react';

interface KeptTextProps {
  readonly label: string;
  readonly value: string;
  readonly onKeep: (value: string) => void;
  readonly placeholder?: string;
  readonly mayBeEmpty?: boolean;
  /** completed over these */
  readonly offers?: readonly string[];
  readonly className?: string | undefined;
  readonly inputClassName?: string | undefined;
}

/** A line of text in place: kept when it is left or Enter is pressed, as it was with Escape. */
export function KeptText(props: KeptTextProps) {
  const { label, value, onKeep, placeholder, mayBeEmpty, offers, className, inputClassName } = props;
  const [text, setText] = useState(value);
  // an undo, or another station, may change it under our hands
  useEffect(() => setText(value), [value]);
  const keep = () => {
    const next = text.trim();
    if (next === value) return;
    if (next === '' && !mayBeEmpty) setText(value);
    else onKeep(next);
  };
  const shared = {
    size: 'xs',
    'aria-label': label,
    title: label,
    value: text,
    placeholder,
    className,
    classNames: inputClassName ? { input: inputClassName } : {},
    onBlur: keep,
    onKeyDown: (event: KeyboardEvent<HTMLInputElement>) => {
      if (event.key === 'Enter' && !event.defaultPrevented) event.currentTarget.blur();
      if (event.key !== 'Escape') return;
      setText(value);
      const input = event.currentTarget;
      // once the old text stands there again, so that leaving keeps nothing
      setTimeout(() => input.blur(), 0);
    },
  } as const;
  return offers ? (
    <Autocomplete {...shared} data={[...new Set(offers)]} onChange={setText} />
  ) : (
    <TextInput {...shared} onChange={(event) => setText(event.currentTarget.value)} />
  );
}
