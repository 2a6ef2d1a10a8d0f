import { v7 as uuidv7 } from 'uuid';
import type { Library } from '../../../db/library.ts';
import { type Problem, ProblemError } from '../../../football/result.ts';
import type { JobState, JobView } from '../views.ts';

/** What a running job is given. */
export interface JobContext {
  readonly signal: AbortSignal;
  /** 0..1 */
  progress(done: number): void;
  /** what has been done so far, kept with the job even when it stops half way */
  report(report: unknown): void;
}

export type JobWork = (input: never, context: JobContext) => Promise<unknown>;

interface JobRow {
  id: string;
  kind: string;
  label: string;
  state: JobState;
  progress: number;
  input: string;
  report: string | null;
  problem: string | null;
  at: string;
}

/**
 * Long work: one job after the other of a kind, with progress and cancel. A job is written down before it
 * starts, so that work cut off by a crash is known at the next start and can be taken up again; each
 * kind of work finds by itself what is done already.
 */
export class Jobs {
  private readonly kinds = new Map<string, JobWork>();
  private readonly running = new Map<string, { abort: AbortController; done: Promise<void> }>();
  private readonly queues = new Map<string, Promise<void>>();

  constructor(
    private readonly library: Library,
    private readonly tell: (job: JobView) => void,
  ) {}

  define<Input>(kind: string, work: (input: Input, context: JobContext) => Promise<unknown>): void {
    this.kinds.set(kind, work as JobWork);
  }

  list(): JobView[] {
    const rows = this.library.db
      .prepare('SELECT * FROM jobs ORDER BY at DESC, id DESC LIMIT 100')
      .all() as JobRow[];
    return rows.map(view);
  }

  get(jobId: string): JobView | null {
    const row = this.row(jobId);
    return row ? view(row) : null;
  }

  start(kind: string, label: string, input: unknown): JobView {
    if (!this.kinds.has(kind)) throw new Error(`There is no work of kind ${kind}.`);
    const id = uuidv7();
    this.library.db
      .prepare(
        "INSERT INTO jobs (id, kind, label, state, progress, input, at) VALUES (?, ?, ?, 'waiting', 0, ?, ?)",
      )
      .run(id, kind, label, JSON.stringify(input), new Date().toISOString());
    this.enqueue(id, kind);
    return this.must(id);
  }

  /** The job's final state, when it has one. */
  async finished(jobId: string): Promise<JobView> {
    await this.running.get(jobId)?.done;
    return this.must(jobId);
  }

  cancel(jobId: string): JobView {
    const { state } = this.must(jobId);
    this.running.get(jobId)?.abort.abort();
    if (state === 'waiting') this.save(jobId, { state: 'cancelled' });
    return this.must(jobId);
  }

  /** Takes up a job that was cancelled, failed or cut off. */
  resume(jobId: string): JobView {
    const job = this.must(jobId);
    const running = this.running.get(jobId);
    if (job.state === 'done' || (running && !running.abort.signal.aborted)) return job;
    this.save(jobId, { state: 'waiting', problem: null });
    this.enqueue(jobId, job.kind);
    return this.must(jobId);
  }

  /** At the start of the service: work that a crash cut off goes on. */
  resumeInterrupted(): void {
    const rows = this.library.db
      .prepare("SELECT id, kind FROM jobs WHERE state IN ('running', 'waiting') ORDER BY at, id")
      .all() as { id: string; kind: string }[];
    for (const { id, kind } of rows) {
      if (!this.running.has(id) && this.kinds.has(kind)) this.enqueue(id, kind);
    }
  }

  /** At the close of the service: running work stops now and goes on at the next start. */
  async stop(): Promise<void> {
    const open = [...this.running.values()];
    for (const { abort } of open) abort.abort('closing');
    await Promise.all(open.map((j) => j.done));
  }

  private enqueue(id: string, kind: string): void {
    const abort = new AbortController();
    const before = this.queues.get(kind) ?? Promise.resolve();
    const done = before
      .then(() => this.run(id, abort))
      .finally(() => {
        // a job that was taken up again while it was being called off runs anew under the same id
        if (this.running.get(id)?.abort === abort) this.running.delete(id);
      });
    this.running.set(id, { abort, done });
    this.queues.set(kind, done);
  }

  private async run(id: string, abort: AbortController): Promise<void> {
    if (abort.signal.aborted) return;
    const row = this.row(id);
    const work = row ? this.kinds.get(row.kind) : undefined;
    if (!row || !work) return;
    this.save(id, { state: 'running', progress: 0 });
    let toldAt = 0;
    try {
      const report = await work(JSON.parse(row.input) as never, {
        signal: abort.signal,
        progress: (done) => {
          const now = Date.now();
          if (now - toldAt < 100 && done < 1) return;
          toldAt = now;
          this.save(id, { progress: Math.max(0, Math.min(1, done)) });
        },
        report: (soFar) => this.save(id, { report: soFar }),
      });
      this.save(id, { state: 'done', progress: 1, report });
    } catch (error) {
      if (abort.signal.aborted) {
        this.save(id, { state: abort.signal.reason === 'closing' ? 'waiting' : 'cancelled' });
        return;
      }
      this.save(id, { state: 'failed', problem: problemOf(error) });
    }
  }

  private save(
    id: string,
    change: { state?: JobState; progress?: number; report?: unknown; problem?: Problem | null },
  ): void {
    const sets: string[] = [];
    const values: unknown[] = [];
    for (const [key, value] of Object.entries(change)) {
      sets.push(`${key} = ?`);
      const asJson = (key === 'report' || key === 'problem') && value !== null;
      values.push(asJson ? JSON.stringify(value ?? null) : value);
    }
    this.library.db.prepare(`UPDATE jobs SET ${sets.join(', ')} WHERE id = ?`).run(...values, id);
    this.tell(this.must(id));
  }

  private row(id: string): JobRow | undefined {
    return this.library.db.prepare('SELECT * FROM jobs WHERE id = ?').get(id) as JobRow | undefined;
  }

  private must(id: string): JobView {
    const row = this.row(id);
    if (!row) {
      throw new ProblemError({
        code: 'job-unknown',
        message: 'There is no such job.',
        next: 'Look at the list of jobs.',
      });
    }
    return view(row);
  }
}

function problemOf(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  return {
    code: 'job-failed',
    message: error instanceof Error ? error.message : String(error),
    kept: 'What was done before it stopped is kept.',
    next: 'Try again; if it fails at the same place, the message says where.',
  };
}

function view(row: JobRow): JobView {
  return {
    jobId: row.id,
    kind: row.kind,
    label: row.label,
    state: row.state,
    progress: row.progress,
    report: row.report ? JSON.parse(row.report) : null,
    problem: row.problem ? (JSON.parse(row.problem) as Problem) : null,
    at: row.at,
  };
}
