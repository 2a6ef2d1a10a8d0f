import { useEffect, useState } from 'react';
import type { Suggestion } from '../../../../football/log-line/index.ts';
import { playCalls } from '../../../service/play-calls.ts';

const NONE: readonly Suggestion[] = [];

/** What the word at the cursor could become, likeliest first; the answer to the last key counts. */
export function useSuggestions(playId: string | null, text: string, cursor: number): readonly Suggestion[] {
  const [found, setFound] = useState<{ text: string; list: readonly Suggestion[] }>({ text: '', list: NONE });
  useEffect(() => {
    if (!playId || text.trim() === '') return setFound({ text, list: NONE });
    let late = false;
    playCalls
      .complete(playId, text, cursor)
      .then(({ suggestions }) => {
        if (!late) setFound({ text, list: suggestions as readonly Suggestion[] });
      })
      // no suggestions is no trouble worth words; what is logged goes another way
      .catch(() => undefined);
    return () => {
      late = true;
    };
  }, [playId, text, cursor]);
  return found.text === text ? found.list : NONE;
}
