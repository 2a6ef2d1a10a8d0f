import { useMemo } from 'react';
import type { GameView, LibraryView, PlayView } from '../../../../electron/service/views.ts';
import { type Finding, makeAuditor } from '../../../../football/audit/audit.ts';
import type { LogLineReading } from '../../../../football/log-line/index.ts';
import { rulesFor } from '../../../../football/rules/index.ts';
import { useLibrary } from '../../../service/queries.ts';
import { typedRecord } from './typed-record.ts';

/** What cannot be right in the game as it stands, the line that is being typed taken in; in the order of play. */
export function useAudit(
  game: GameView | null,
  plays: readonly PlayView[],
  play: PlayView | null,
  reading: LogLineReading | null,
): readonly Finding[] {
  const { data: library } = useLibrary();
  const auditor = useMemo(() => auditorFor(library, game), [library, game]);
  return useMemo(() => {
    if (!auditor) return [];
    const records = plays.map((each) =>
      each.playId === play?.playId ? typedRecord(each, reading) : each.record,
    );
    return auditor(records);
  }, [auditor, plays, play, reading]);
}

function auditorFor(library: LibraryView | undefined, game: GameView | null) {
  if (!library) return null;
  const teams = { home: library.team, ...(game?.opponent ? { away: game.opponent } : {}) };
  return makeAuditor(rulesFor(library.level, game?.season ?? undefined), teams);
}
