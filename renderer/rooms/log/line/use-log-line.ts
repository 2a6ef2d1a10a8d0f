import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { FilmTimeView, GameView, PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import {
  type LogLineReading,
  type LogToken,
  printLogLine,
  readLogLine,
  type Suggestion,
} from '../../../../football/log-line/index.ts';
import { gesture } from '../../../service/gesture.ts';
import { takeIn } from '../../../service/play-cache.ts';
import { playCalls } from '../../../service/play-calls.ts';
import { knownPlay } from '../known-play.ts';
import { askingToken, newTermOf, takeCandidate, takeSuggestion, termsSaid } from './line-edits.ts';
import { useSuggestions } from './use-suggestions.ts';
import { type NewTerm, opponentOf, useVocabularyIndex } from './vocabulary-index.ts';

export interface LogLineState {
  readonly text: string;
  readonly reading: LogLineReading | null;
  readonly asking: LogToken | null;
  readonly suggestions: readonly Suggestion[];
  /** index of the suggestion that Tab takes */
  readonly picked: number;
  /** the line that is being saved; it shows as pending until the service has committed it */
  readonly pending: string | null;
  /** what the last committed line was, and on which play */
  readonly saved: { readonly playNumber: number | null; readonly line: string } | null;
  /** why Enter did nothing */
  readonly refusal: string | null;
  readonly input: RefObject<HTMLInputElement | null>;
  readonly onText: (text: string, cursor: number) => void;
  readonly onCursor: (cursor: number) => void;
  readonly choose: (index: number) => void;
  readonly take: (suggestion?: Suggestion) => void;
  readonly pick: (by: number) => void;
  readonly commit: (then: () => void) => Promise<void>;
  readonly recall: () => void;
}

/** The log line of a play: what is typed, what it is understood as, and its way to the library. */
export function useLogLine(
  play: PlayView | null,
  plays: readonly PlayView[],
  game: GameView | null,
  vocabulary: VocabularyView | undefined,
  filmTime: () => FilmTimeView | null,
): LogLineState {
  const input = useRef<HTMLInputElement>(null);
  const [{ text, cursor }, setLine] = useState({ text: '', cursor: 0 });
  const [newTerms, setNewTerms] = useState<readonly NewTerm[]>([]);
  const [picked, setPicked] = useState(0);
  const [pending, setPending] = useState<string | null>(null);
  const [saved, setSaved] = useState<LogLineState['saved']>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const placeCursor = useRef<number | null>(null);

  const opponent = vocabulary ? opponentOf(game?.opponent ?? null, plays, vocabulary.teams.ours) : null;
  const index = useVocabularyIndex(vocabulary, opponent, newTerms);
  const reading = useMemo(
    () => (index && play ? readLogLine(text, index, { play: knownPlay(play) }) : null),
    [index, play, text],
  );
  const suggestions = useSuggestions(play?.playId ?? null, text, cursor);
  const asking = reading ? askingToken(reading) : null;

  // a play's words are not another play's
  const playId = play?.playId;
  // the play is what the refusal was about
  useEffect(() => setRefusal(null), [playId]);

  useLayoutEffect(() => {
    if (placeCursor.current === null) return;
    input.current?.setSelectionRange(placeCursor.current, placeCursor.current);
    placeCursor.current = null;
  });

  const write = (line: { readonly text: string; readonly cursor: number }) => {
    placeCursor.current = line.cursor;
    setLine(line);
    setPicked(0);
    setRefusal(null);
  };

  return {
    text,
    reading,
    asking,
    suggestions,
    picked: Math.min(picked, Math.max(0, suggestions.length - 1)),
    pending,
    saved,
    refusal,
    input,
    onText: (typed, at) => {
      setLine({ text: typed, cursor: at });
      setPicked(0);
      setRefusal(null);
    },
    onCursor: (at) => setLine((now) => (now.cursor === at ? now : { ...now, cursor: at })),
    choose: (at) => {
      const candidate = asking?.candidates[at];
      if (!asking || !candidate) return;
      const term = newTermOf(candidate);
      if (term) setNewTerms((now) => [...now, term]);
      write(takeCandidate(text, asking, candidate));
    },
    take: (suggestion = suggestions[picked]) => {
      if (suggestion) write(takeSuggestion(text, suggestion));
    },
    pick: (by) =>
      setPicked((now) => (suggestions.length ? (now + by + suggestions.length) % suggestions.length : 0)),
    commit: async (then) => {
      if (!play || !reading) return;
      const line = text.trim();
      if (line === '') return then();
      if (!reading.ready) {
        setRefusal(
          reading.problems.find((problem) => problem.blocks)?.message ?? 'The line is not complete.',
        );
        return;
      }
      // what is typed from here on belongs to the next line
      setPending(line);
      setSaved(null);
      write({ text: '', cursor: 0 });
      const logged = await gesture(() =>
        playCalls.log({
          playId: play.playId,
          line,
          film: filmTime(),
          newTerms: termsSaid(reading, newTerms),
        }),
      );
      setPending(null);
      if (!logged) {
        setLine((now) => ({ text: now.text ? `${line} ${now.text}` : line, cursor: line.length }));
        return;
      }
      takeIn(logged.changed);
      setNewTerms([]);
      setSaved({ playNumber: play.record.playNumber, line });
      then();
    },
    recall: () => {
      if (!index || !play) return;
      const line = printLogLine(play.record, index);
      write({ text: line, cursor: line.length });
    },
  };
}
