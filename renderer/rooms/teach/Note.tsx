import { Textarea } from '@mantine/core';
import { useEffect, useState } from 'react';

interface NoteProps {
  readonly id?: string;
  readonly label: string;
  readonly value: string | null;
  readonly onKeep: (note: string | null) => void;
}

/** A note that is kept when it is left; Escape leaves it, too. */
export function Note({ id, label, value, onKeep }: NoteProps) {
  const [text, setText] = useState(value ?? '');
  // an undo, or another station, may change it under our hands
  useEffect(() => setText(value ?? ''), [value]);
  const keep = () => {
    const next = text.trim() === '' ? null : text.trim();
    if (next !== value) onKeep(next);
  };
  return (
    <Textarea
      {...(id ? { id } : {})}
      size="xs"
      label={label}
      autosize
      minRows={1}
      maxRows={5}
      value={text}
      onChange={(event) => setText(event.currentTarget.value)}
      onBlur={keep}
      onKeyDown={(event) => event.key === 'Escape' && event.currentTarget.blur()}
    />
  );
}
