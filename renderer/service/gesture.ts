import type { ChangedView } from '../../electron/service/views.ts';
import { gestureAnswered, gestureSent } from '../state/saving.ts';
import { problemFrom } from './http.ts';
import { takeIn } from './play-cache.ts';
import { tellProblem } from './problems.ts';

/**
 * Sends one gesture. It shows as being saved until the service has committed it; a refusal is told, and null comes
 * back. Nothing is painted as done before that.
 */
export async function gesture<T>(send: () => Promise<T>): Promise<T | null> {
  gestureSent();
  try {
    const answer = await send();
    gestureAnswered(true);
    return answer;
  } catch (error) {
    gestureAnswered(false);
    tellProblem(problemFrom(error));
    return null;
  }
}

/** A gesture that changes plays: what came back takes the place of what is shown. */
export async function changePlays(send: () => Promise<ChangedView>): Promise<ChangedView | null> {
  const changed = await gesture(send);
  if (changed) takeIn(changed);
  return changed;
}
