import { Button } from '@mantine/core';
import { useQueries } from '@tanstack/react-query';
import { printQuestion } from '../../../../football/question/print.ts';
import { cache, keys } from '../../../service/cache.ts';
import { service } from '../../../service/client.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { widerQuestions } from '../narrower.ts';
import { plays } from '../table/cell-words.ts';

/** No play was found: which condition empties the answer, and what to do about it. */
export function NothingFound() {
  const { question } = useStore(askStore);
  const wider = widerQuestions(question.question);
  const counts = useQueries(
    {
      queries: wider.map(({ question: each }) => {
        const where = printQuestion(each);
        return { queryKey: keys.answer(where, ['calls']), queryFn: () => service.answer(where, ['calls']) };
      }),
    },
    cache,
  );
  const ways = wider
    .map((way, i) => ({ ...way, count: counts[i]?.data?.count ?? 0 }))
    .filter((way) => way.count > 0)
    .sort((a, b) => b.count - a.count);
  return (
    <div className={classes.empty} role="status">
      <h2>No play is like that.</h2>
      {ways.length > 0 ? (
        <>
          <p>Each of these conditions empties the answer. Without it there would be:</p>
          <ul>
            {ways.map((way) => (
              <li key={way.without}>
                <Button onClick={() => askActions.ask(way.question)}>
                  {plays(way.count)} without {way.without}
                </Button>
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p>
          Take a condition out, or ask for a family instead of one of its members. Plays that are not tagged
          yet are found by “is not tagged”.
        </p>
      )}
      <div>
        <Button onClick={askActions.clear}>Ask for every play</Button>
      </div>
    </div>
  );
}
