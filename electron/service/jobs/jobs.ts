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

export interface JobKind<Input> {
  readonly work: (input: Input, context: JobContext) => Promise<unknown>;
  /** one of this kind at a time, for work that depends on the one before */
  readonly alone?: boolean;
  /** nobody waits for it: it lets every other job go first, and leaves a place free for them */
  readonly background?: (input: Input) => boolean;
}

interface Entry {
  readonly id: string;
  readonly kind: string;
  background: boolean;
  readonly abort: AbortController;
  readonly done: Promise<void>;
  readonly end: () => void;
  running: boolean;
}

/** Heavy work at once, over all kinds; each runs programs that use every core anyway. */
const AT_ONCE = 2;
/** Of them, work that nobody waits for: a place stays free for what a person asks. */
const BACKGROUND_AT_ONCE = 1;
/** Progress is written to the library, which waits for the drive, so not too often. */
const TOLD_EVERY_MS = 250;

/**
 * Long work, a few jobs at a time: what a person waits for before what runs in the background, each in the order in which
 * it came. A job is written down before it starts, so that work cut off by a crash is known at the next start and can be
 * taken up again; each kind of work finds by itself what is done already.
 */
export class Jobs {
  private readonly kinds = new Map<string, JobKind<never>>();
  /** in the order in which they came, those that wait and those that run */
  private readonly entries = new Set<Entry>();

  constructor(
    private readonly library: Library,
    private readonly tell: (job: JobView) => void,
  ) {}

  define<Input>(kind: string, how: JobKind<Input>): void {
    this.kinds.set(kind, how as unknown as JobKind<never>);
  }

  /** What waits and runs, and the last hundred; the newest first. */
  list(): JobView[] {
    const rows = this.library.db
      .prepare(
        `SELECT * FROM jobs WHERE state IN ('running', 'waiting')
         OR id IN (SELECT id FROM jobs ORDER BY at DESC, id DESC LIMIT 100) ORDER BY at DESC, id DESC`,
      )
      .all() as JobRow[];
    return rows.map(view);
  }

  get(jobId: string): JobView | null {
    const row = this.row(jobId);
    return row ? view(row) : null;
  }

  /**
   * Writes a job down and starts it when its turn comes.
   * @param when `later`: at the next start of the service, for a command that ends before the work would
   */
  start(kind: string, label: string, input: unknown, when: 'now' | 'later' = 'now'): JobView {
    if (!this.kinds.has(kind)) throw new Error(`There is no work of kind ${kind}.`);
    const id = uuidv7();
    this.library.db
      .prepare(
        "INSERT INTO jobs (id, kind, label, state, progress, input, at) VALUES (?, ?, ?, 'waiting', 0, ?, ?)",
      )
      .run(id, kind, label, JSON.stringify(input), new Date().toISOString());
    this.tell(this.must(id));
    if (when === 'now') this.enqueue(id, kind);
    return this.must(id);
  }

  /** The job's final state, when it has one. */
  async finished(jobId: string): Promise<JobView> {
    await this.entryOf(jobId)?.done;
    return this.must(jobId);
  }

  cancel(jobId: string): JobView {
    const { state } = this.must(jobId);
    const entry = this.entryOf(jobId);
    entry?.abort.abort();
    if (entry && !entry.running) this.leave(entry);
    if (state === 'waiting') this.save(jobId, { state: 'cancelled' });
    return this.must(jobId);
  }

  /** Takes up a job that was cancelled, failed or cut off. */
  resume(jobId: string): JobView {
    const job = this.must(jobId);
    const entry = this.entryOf(jobId);
    if (job.state === 'done' || (entry && !entry.abort.signal.aborted)) return job;
    this.save(jobId, { state: 'waiting', problem: null });
    this.enqueue(jobId, job.kind);
    return this.must(jobId);
  }

  /** A person waits for a job now that was background work until then. */
  hurry(jobId: string): void {
    const entry = this.entryOf(jobId);
    if (entry) entry.background = false;
    this.startNext();
  }

  /** At the start of the service: work that a crash cut off goes on. */
  resumeInterrupted(): void {
    const rows = this.library.db
      .prepare("SELECT id, kind FROM jobs WHERE state IN ('running', 'waiting') ORDER BY at, id")
      .all() as { id: string; kind: string }[];
    for (const { id, kind } of rows) {
      if (!this.entryOf(id) && this.kinds.has(kind)) this.enqueue(id, kind);
    }
  }

  /** At the close of the service: running work stops now and goes on at the next start. */
  async stop(): Promise<void> {
    const open = [...this.entries];
    for (const entry of open) {
      entry.abort.abort('closing');
      if (!entry.running) this.leave(entry);
    }
    await Promise.all(open.map((entry) => entry.done));
  }

  /** The newest entry: a job that was taken up again while it was being called off has two. */
  private entryOf(jobId: string): Entry | undefined {
    return [...this.entries].filter((entry) => entry.id === jobId).at(-1);
  }

  private enqueue(id: string, kind: string): void {
    let end = () => {};
    const done = new Promise<void>((resolve) => {
      end = resolve;
    });
    const row = this.row(id);
    const background = this.kinds.get(kind)?.background?.(JSON.parse(row?.input ?? 'null') as never) ?? false;
    this.entries.add({ id, kind, background, abort: new AbortController(), done, end, running: false });
    // started from the next turn on, so that whoever starts a job hears of it as waiting
    queueMicrotask(() => this.startNext());
  }

  private leave(entry: Entry): void {
    this.entries.delete(entry);
    entry.end();
  }

  private startNext(): void {
    const waiting = [...this.entries].filter((entry) => !entry.running);
    for (const entry of [...waiting.filter((e) => !e.background), ...waiting.filter((e) => e.background)]) {
      if (!this.mayStart(entry)) continue;
      entry.running = true;
      void this.run(entry).finally(() => {
        this.leave(entry);
        this.startNext();
      });
    }
  }

  private mayStart(entry: Entry): boolean {
    const running = [...this.entries].filter((each) => each.running);
    if (running.length >= AT_ONCE || running.some((each) => each.id === entry.id)) return false;
    if (entry.background && running.filter((each) => each.background).length >= BACKGROUND_AT_ONCE)
      return false;
    return !(this.kinds.get(entry.kind)?.alone && running.some((each) => each.kind === entry.kind));
  }

  private async run({ id, kind, abort }: Entry): Promise<void> {
    const row = this.row(id);
    const work = this.kinds.get(kind)?.work;
    if (!row || !work || abort.signal.aborted) return;
    this.save(id, { state: 'running', progress: 0 });
    let toldAt = 0;
    let soFar: { report?: unknown; progress?: number } = {};
    const tellSometimes = () => {
      const now = Date.now();
      if (now - toldAt < TOLD_EVERY_MS) return;
      toldAt = now;
      this.save(id, soFar);
      soFar = {};
    };
    try {
      const report = await work(JSON.parse(row.input) as never, {
        signal: abort.signal,
        progress: (done) => {
          soFar.progress = Math.max(0, Math.min(1, done));
          tellSometimes();
        },
        report: (report) => {
          soFar.report = report;
          tellSometimes();
        },
      });
      this.save(id, { state: 'done', progress: 1, report });
    } catch (error) {
      const closing = abort.signal.reason === 'closing';
      if (abort.signal.aborted) this.save(id, { ...soFar, state: closing ? 'waiting' : 'cancelled' });
      else this.save(id, { ...soFar, state: 'failed', problem: problemOf(error) });
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
  const { filmId } = (JSON.parse(row.input) ?? {}) as { filmId?: string };
  return {
    ...(filmId === undefined ? {} : { filmId }),
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
