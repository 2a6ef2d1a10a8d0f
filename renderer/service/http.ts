import { type Problem, ProblemError } from '../../football/result.ts';

/** One way to the service, same origin; a refusal is thrown as the `Problem` the service gave. */
export async function send(path: RequestInfo | URL, init?: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch (cause) {
    if (init?.signal?.aborted) throw cause;
    throw new ProblemError(
      {
        code: 'service-unreachable',
        message: 'The station’s service does not answer.',
        kept: 'Everything that showed as saved is on disk.',
        next: 'Start Tapebook again; this window can stay open and will go on once it answers.',
      },
      { cause },
    );
  }
  if (response.ok) return response;
  throw new ProblemError(await problemOf(response, String(path)));
}

async function problemOf(response: Response, path: string): Promise<Problem> {
  try {
    const { problem } = (await response.json()) as { problem?: Problem };
    if (problem) return problem;
  } catch {
    // no JSON: said below with the status alone
  }
  return {
    code: `http-${response.status}`,
    message: `The service refused ${path} (status ${response.status}).`,
    kept: 'Nothing was changed.',
    next: 'Try once more; if it stays, reload the window.',
  };
}

export function problemFrom(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  return {
    code: 'unexpected',
    message: error instanceof Error ? error.message : String(error),
    kept: 'Everything that showed as saved is on disk.',
    next: 'Try once more; if it stays, reload the window.',
  };
}
