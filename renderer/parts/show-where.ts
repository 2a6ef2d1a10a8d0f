import type { Question } from '../../football/question/ast.ts';
import { printQuestion } from '../../football/question/print.ts';
import { cache, keys } from '../service/cache.ts';
import { service } from '../service/client.ts';
import { problemFrom } from '../service/http.ts';
import { tellDone, tellProblem } from '../service/problems.ts';
import { showPlays } from '../state/showing.ts';

/** Opens the film of every play that a question finds. */
export async function showWhere(title: string, question: Question): Promise<void> {
  const where = printQuestion(question);
  try {
    const answer = await cache.fetchQuery({
      queryKey: keys.answer(where, ['calls']),
      queryFn: () => service.answer(where, ['calls']),
    });
    if (answer.count === 0) tellDone(`${title}: no play is tagged so.`);
    else showPlays({ title, playIds: answer.playIds });
  } catch (error) {
    tellProblem(problemFrom(error));
  }
}
