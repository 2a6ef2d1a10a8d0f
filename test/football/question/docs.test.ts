import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';

const examples = [...readFileSync('docs/questions.md', 'utf8').matchAll(/^\| .* \| `(.+)` \|$/gm)].map(
  ([, text]) => text!,
);

describe('docs/questions.md', () => {
  it('shows what a question can say', () => {
    expect(examples.length).toBeGreaterThan(15);
  });

  it.each(examples)('%s is read, and says the same again', (text) => {
    const read = parseQuestion(text, BUILT_IN_FIELDS);
    if (!read.ok) throw new Error(read.problem.message);
    const again = parseQuestion(printQuestion(read.value), BUILT_IN_FIELDS);
    expect(again).toEqual(read);
  });
});
