import { Button } from '@mantine/core';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { QuestionBuilder } from './QuestionBuilder.tsx';
import { QuestionText } from './QuestionText.tsx';
import text from './question.module.css';
import { SavedQuestions } from './SavedQuestions.tsx';
import type { ValueWords } from './value-words.ts';

/** The question: saved ones, conditions, and the same as text. */
export function QuestionPanel({ words }: { readonly words: ValueWords }) {
  const { question } = useStore(askStore);
  const fields = words.vocabulary.fields;
  return (
    <section className={classes.question} aria-label="Question">
      <div className={text.head}>
        <SavedQuestions fields={fields} />
        <Button
          disabled={question.text === '' && question.tree.rules.length === 0}
          onClick={askActions.clear}
        >
          Every play
        </Button>
      </div>
      <QuestionBuilder
        tree={question.tree}
        onChange={(tree) => askActions.tree(tree, words.vocabulary)}
        fields={fields}
        words={words}
        wrong={question.path}
      />
      <QuestionText words={words} />
      <p role="status" className={text.problem}>
        {question.problem && (
          <>
            {question.problem.message} {question.problem.next}{' '}
            <span className={text.kept}>The numbers are those of the last whole question.</span>
          </>
        )}
      </p>
    </section>
  );
}
