import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { keys } from '../../../service/cache.ts';
import { useVocabulary } from '../../../service/queries.ts';
import { questionCalls } from '../../../service/question-calls.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { plays } from '../table/cell-words.ts';

/** More ways out than this are no help. */
const SHOWN = 8;

/** No play was found: which condition, or which two together, empty the answer, and what to do about it. */
export function NothingFound() {
  const { question } = useStore(askStore);
  const { data: vocabulary } = useVocabulary();
  const { data: why } = useQuery({
    queryKey: keys.whyNothing(question.where),
    queryFn: () => questionCalls.whyNothing(question.where),
  });
  return (
    <div className={classes.empty} role="status">
      <h2>No play is like that.</h2>
      {why && why.reasons.length > 0 && (
        <ul>
          {why.reasons.slice(0, SHOWN).map(({ conditions }) => (
            <li key={conditions.join(' ')}>
              No play of the library has <code>{conditions[0]}</code>
              {conditions[1] !== undefined && (
                <>
                  {' '}
                  together with <code>{conditions[1]}</code>
                </>
              )}
              .
            </li>
          ))}
        </ul>
      )}
      {why && why.wider.length > 0 && vocabulary && (
        <>
          <p>Take out what empties it:</p>
          <ul>
            {why.wider.slice(0, SHOWN).map((wider) => (
              <li key={wider.without.join(' ')}>
                <Button onClick={() => askActions.text(wider.where, vocabulary)}>
                  {plays(wider.plays)} without {wider.without.join(' and ')}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
      <p>Plays that are not tagged yet are found by “is not tagged”.</p>
      <div>
        <Button onClick={askActions.clear}>Ask for every play</Button>
      </div>
    </div>
  );
}
