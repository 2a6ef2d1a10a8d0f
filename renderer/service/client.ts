import type { MetricDefinition } from '../../football/metrics/metric.ts';
import { answer, api } from './api.ts';

/** What the service says about a metric: its definition without the functions. */
export type MetricView = Pick<
  MetricDefinition,
  'key' | 'name' | 'kind' | 'decimals' | 'unit' | 'formula' | 'per' | 'source' | 'caution'
>;

const jobAt = (jobId: string) => ({ param: { jobId } });

/** What a window reads from the service, and the gestures of the station; all else stands beside its room's subject. */
export const service = {
  library: () => answer(api.library.$get()),
  vocabulary: () => answer(api.vocabulary.$get()),
  metrics: async (): Promise<MetricView[]> => {
    const metrics = await answer(api.metrics.$get());
    return metrics.map(({ per, ...metric }) => (per === null ? metric : { ...metric, per }));
  },
  settings: () => answer(api.settings.$get()),
  games: () => answer(api.games.$get()),
  plays: (gameId: string) => answer(api.games[':gameId'].plays.$get({ param: { gameId } })),
  box: (gameId: string) => answer(api.games[':gameId'].box.$get({ param: { gameId } })),
  playsById: (playIds: readonly string[]) =>
    answer(api.plays['by-id'].$post({ json: { playIds: [...playIds] } })),
  films: () => answer(api.films.$get()),
  frameTimes: (filmId: string, of?: 'proxy') =>
    answer(api.films[':filmId'].frames.$get({ param: { filmId }, query: of ? { of } : {} })),
  answer: (where: string, metrics?: readonly string[]) =>
    answer(api.answer.$post({ json: { where, ...(metrics ? { metrics: [...metrics] } : {}) } })),
  line: (playIds: readonly string[], metrics: readonly string[]) =>
    answer(api.line.$post({ json: { playIds: [...playIds], metrics: [...metrics] } })),
  questions: () => answer(api.questions.$get()),
  cutups: () => answer(api.cutups.$get()),
  cutup: (id: string) => answer(api.cutups[':id'].$get({ param: { id } })),
  jobs: () => answer(api.jobs.$get()),
  undo: () => answer(api.undo.$post()),
  redo: () => answer(api.redo.$post()),
  cancelJob: (jobId: string) => answer(api.jobs[':jobId'].cancel.$post(jobAt(jobId))),
  resumeJob: (jobId: string) => answer(api.jobs[':jobId'].resume.$post(jobAt(jobId))),
};
