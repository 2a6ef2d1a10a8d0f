import { problemFrom } from '../../service/http.ts';
import { tellProblem } from '../../service/problems.ts';
import { questionCalls } from '../../service/question-calls.ts';
import { askActions } from './ask-store.ts';
import type { ShownMetric } from './table/table-layout.ts';

/**
 * Plays what a number is made of: of a cell's plays the ones its metric counts, all of them where it names no metric.
 * A number that no play stands behind (no sacks among thirty calls) plays the thirty, and says so.
 */
export async function playMetric(
  title: string,
  metric: Pick<ShownMetric, 'key'> | null,
  playIds: readonly string[],
): Promise<void> {
  if (playIds.length === 0) return;
  if (!metric) {
    askActions.play(title, playIds);
    return;
  }
  try {
    const behind = await questionCalls.behind(playIds, metric.key);
    if (behind.playIds.length > 0) askActions.play(title, behind.playIds);
    else askActions.play(`${title}: none; all plays of the cell`, playIds);
  } catch (error) {
    tellProblem(problemFrom(error));
  }
}
