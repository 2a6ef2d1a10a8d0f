import { Button } from '@mantine/core';
import { useQueries } from '@tanstack/react-query';
import type { Question } from '../../../../football/question/ast.ts';
import { printQuestion } from '../../../../football/question/print.ts';
import { keys } from '../../../service/cache.ts';
import { service } from '../../../service/client.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { conditionsOf } from '../narrower.ts';
import { plays } from '../table/cell-words.ts';

/** No play was found: which condition empties the answer, and what to do about it. */
export function NothingFound() {
  const { question } = useStore(askStore);
  const conditions = conditionsOf(question.question);
  const without = useCounts(conditions.map((each) => each.without));
  const alone = useCounts(conditions.map((each) => each.alone));
  const wider = conditions
    .map((condition, i) => ({ ...condition, count: without[i] ?? 0 }))
    .filter((each) => each.count > 0)
    .sort((a, b) => b.count - a.count);
  const barren = conditions.filter((_, i) => alone[i] === 0);
  return (
    <div className={classes.empty} role="status">
      <h2>No play is like that.</h2>
      {barren.length > 0 && (
        <ul>
          {barren.map((condition) => (
            <li key={condition.words}>
              No play of the library has <code>{condition.words}</code>.{' '}
              <Button onClick={() => askActions.ask(condition.without)}>Take it out</Button>
            </li>
          ))}
        </ul>
      )}
      {wider.length > 0 && (
        <>
          <p>Take one condition out:</p>
          <ul>
            {wider.map((condition) => (
              <li key={condition.words}>
                <Button onClick={() => askActions.ask(condition.without)}>
                  {plays(condition.count)} without {condition.words}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
      {wider.length === 0 && barren.length === 0 && (
        <p>
          {conditions.length === 0
            ? 'Ask for a family instead of one of its members, or for another value. '
            : 'It takes more than one condition out to find any. '}
          Plays that are not tagged yet are found by “is not tagged”.
        </p>
      )}
      <div>
        <Button onClick={askActions.clear}>Ask for every play</Button>
      </div>
    </div>
  );
}

/** How many plays each question finds; undefined until it is known. */
function useCounts(questions: readonly Question[]): (number | undefined)[] {
  const answers = useQueries({
    queries: questions.map((each) => {
      const where = printQuestion(each);
      return { queryKey: keys.answer(where, ['calls']), queryFn: () => service.answer(where, ['calls']) };
    }),
  });
  return answers.map((answer) => answer.data?.count);
}
