/** What is said of a condition that names what cannot be compared, or what is not there. */

import type { Problem } from '../result.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type FieldSet, nearestWord } from './fieldset.ts';

/** Null where there is a saved question of the name. */
export function unknownSaved(name: string, fields: FieldSet): Problem | null {
  if (fields.savedQuestion(name)) return null;
  const nearest = nearestWord(
    name,
    fields.saved.map((saved) => saved.name),
  );
  const none = 'None is saved yet.';
  return {
    code: 'question-saved-unknown',
    message: `No question is saved as “${name}”.`,
    next: nearest ? `Did you mean ${nearest}?` : fields.saved.length === 0 ? none : 'Choose a saved one.',
  };
}

export function notComparable(field: FieldDefinition, other: FieldDefinition): Problem {
  return {
    code: 'question-value',
    message: `${field.label} and ${other.label} cannot be held against each other.`,
    next: 'Numbers go with numbers, words with words, and yes or no with yes or no.',
  };
}
