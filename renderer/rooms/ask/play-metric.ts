import { metricOf } from '../../../football/metrics/definitions.ts';
import { cache, keys } from '../../service/cache.ts';
import { service } from '../../service/client.ts';
import { problemFrom } from '../../service/http.ts';
import { tellProblem } from '../../service/problems.ts';
import { askActions } from './ask-store.ts';
import { playsBehind } from './table/plays-behind.ts';
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
  const definition = metric ? metricOf(metric.key) : undefined;
  if (!definition || metric?.key === 'calls') {
    askActions.play(title, playIds);
    return;
  }
  try {
    const plays = await cache.fetchQuery({
      queryKey: keys.playsById(playIds),
      queryFn: () => service.playsById(playIds),
    });
    const behind = playsBehind(
      definition,
      plays.map((play) => play.record),
    );
    if (behind.length > 0) askActions.play(title, behind);
    else askActions.play(`${title}: none; all plays of the cell`, playIds);
  } catch (error) {
    tellProblem(problemFrom(error));
  }
}
