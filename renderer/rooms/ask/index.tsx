import { useEffect } from 'react';
import { useGames, useLibrary, useVocabulary } from '../../service/queries.ts';
import { AnswerViews } from './AnswerViews.tsx';
import { AskCommands } from './AskCommands.tsx';
import { AnswerLine } from './answer/AnswerLine.tsx';
import { NoPlaysYet } from './answer/NoPlaysYet.tsx';
import classes from './ask.module.css';
import { askActions } from './ask-store.ts';
import { FilmSide } from './FilmSide.tsx';
import { QuestionPanel } from './question/QuestionPanel.tsx';

/** Question, numbers, film: what was asked on the left with the film under it, the answer on the right. */
export default function AskRoom() {
  const { data: vocabulary } = useVocabulary();
  const { data: games = [] } = useGames();
  const { data: library } = useLibrary();
  useEffect(() => {
    if (vocabulary) askActions.recall(vocabulary);
  }, [vocabulary]);
  if (!vocabulary || !library) return null;
  const words = { vocabulary, games };
  return (
    <div className={classes.room} data-print-flow>
      <h1 className="unseen">Ask</h1>
      <AskCommands />
      <div className={classes.left}>
        <QuestionPanel words={words} />
        <FilmSide />
      </div>
      <div className={classes.right} data-print-flow>
        {library.counts.plays === 0 ? (
          <NoPlaysYet />
        ) : (
          <>
            <AnswerLine />
            <AnswerViews vocabulary={vocabulary} />
          </>
        )}
      </div>
    </div>
  );
}
