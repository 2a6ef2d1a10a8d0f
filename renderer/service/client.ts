import type {
  AnswerView,
  ChangedView,
  CutupDetailView,
  CutupView,
  FilmView,
  FrameTimesView,
  GameView,
  JobView,
  LibraryView,
  PlayView,
  SavedQuestionView,
  TableRequest,
  TableView,
  VocabularyView,
} from '../../electron/service/views.ts';
import type { MetricDefinition } from '../../football/metrics/metric.ts';
import { ask } from './http.ts';

const at = encodeURIComponent;

/** What the service says about a metric: its definition without the functions. */
export type MetricView = Pick<
  MetricDefinition,
  'key' | 'name' | 'kind' | 'decimals' | 'unit' | 'formula' | 'caution'
>;

/** Questions to the service; each answers with a shape of `views.ts` or throws a `ProblemError`. */
export const service = {
  library: () => ask<LibraryView>('/api/library'),
  vocabulary: () => ask<VocabularyView>('/api/vocabulary'),
  metrics: () => ask<MetricView[]>('/api/metrics'),
  games: () => ask<GameView[]>('/api/games'),
  plays: (gameId: string) => ask<PlayView[]>(`/api/games/${at(gameId)}/plays`),
  playsById: (playIds: readonly string[]) => ask<PlayView[]>('/api/plays/by-id', { playIds }),
  films: () => ask<FilmView[]>('/api/films'),
  frameTimes: (filmId: string) => ask<FrameTimesView>(`/api/films/${at(filmId)}/frames`),
  answer: (where: string, metrics?: readonly string[]) =>
    ask<AnswerView>('/api/answer', { where, ...(metrics ? { metrics } : {}) }),
  table: (request: TableRequest) => ask<TableView>('/api/table', request),
  questions: () => ask<SavedQuestionView[]>('/api/questions'),
  cutups: () => ask<CutupView[]>('/api/cutups'),
  cutup: (cutupId: string) => ask<CutupDetailView>(`/api/cutups/${at(cutupId)}`),
  jobs: () => ask<JobView[]>('/api/jobs'),
  undo: () => ask<ChangedView>('/api/undo', {}),
  redo: () => ask<ChangedView>('/api/redo', {}),
  cancelJob: (jobId: string) => ask<unknown>(`/api/jobs/${at(jobId)}/cancel`, {}),
  resumeJob: (jobId: string) => ask<unknown>(`/api/jobs/${at(jobId)}/resume`, {}),
};
