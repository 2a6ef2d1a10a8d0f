import { useState } from 'react';
import type { FilmTimeView, FilmView, VocabularyView } from '../../../electron/service/views.ts';
import type { VocabularyIndex } from '../../../football/log-line/index.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { FilmBar } from '../../player/FilmBar.tsx';
import { FilmScreen } from '../../player/FilmScreen.tsx';
import { useFilmKeys } from '../../player/use-film-keys.ts';
import { Findings } from './audit/Findings.tsx';
import { useAudit } from './audit/use-audit.ts';
import { CardHead } from './card/CardHead.tsx';
import { PlayCard } from './card/PlayCard.tsx';
import classes from './LogRoom.module.css';
import { LogLine } from './line/LogLine.tsx';
import { useLogLine } from './line/use-log-line.ts';
import { ProposalTrack } from './marking/ProposalTrack.tsx';
import { useMarking } from './marking/use-marking.ts';
import { useProposals } from './marking/use-proposals.ts';
import { MomentStrip } from './moments/MomentStrip.tsx';
import { DriveRibbon } from './ribbon/DriveRibbon.tsx';
import type { Log } from './use-log.ts';
import { useLogFilm } from './use-log-film.ts';
import { usePlayCommands } from './use-play-commands.ts';
import { useStamps } from './use-stamps.ts';

/** Where one play after the other is tagged. */
export function TagDesk(props: {
  readonly log: Log;
  readonly vocabulary: VocabularyView;
  readonly index: VocabularyIndex;
  readonly films: readonly FilmView[];
  /** a recording of this game in which plays are still to be found */
  readonly recording: FilmView | null;
}) {
  const { log, vocabulary, index, films, recording } = props;
  const { play, plays, game } = log;
  const player = useLogFilm(play, plays[log.at + 1] ?? null, recording);
  const [full, setFull] = useState(false);
  const filmTime = (): FilmTimeView | null => {
    const { clip, frame } = player.state.get();
    return clip && frame !== null ? { filmId: clip.filmId, frame } : null;
  };
  const line = useLogLine(play, plays, game, vocabulary, filmTime);
  const findings = useAudit(game, plays, play, line.reading);
  const { pending, stamp } = useStamps(player, play);
  const marking = useMarking(player, game, play, films, log.goTo);
  const proposed = useProposals(player, recording, log.goTo);
  useFilmKeys(player, play);
  usePlayCommands(log);
  useCommand('film.full', () => setFull((now) => !now));
  const group = log.groups[log.group];

  return (
    <div className={classes.desk} data-full={full || undefined}>
      <div className={classes.ribbon}>
        {group && play && <DriveRibbon group={group} play={play} onChoose={log.goTo} />}
      </div>
      <div className={classes.film}>
        <FilmScreen player={player} />
        {(marking.words || marking.whole) && (
          <p className={classes.marking} role="status">
            {marking.words ?? 'Whole film. V goes back to the clip.'}
          </p>
        )}
      </div>
      <div>
        <FilmBar player={player} play={play} />
        {recording && <ProposalTrack film={recording} player={player} proposed={proposed} />}
      </div>
      <LogLine
        line={line}
        label={play ? `Play ${play.record.playNumber ?? ''}` : 'No play'}
        disabled={!play}
        onNext={() => log.goBy(1)}
      />
      {play ? (
        <PlayCard
          key={game?.gameId}
          play={play}
          vocabulary={vocabulary}
          index={index}
          filmTime={filmTime}
          head={
            <div>
              <CardHead play={play} total={plays.length} />
              <MomentStrip
                play={play}
                filmId={player.state.get().clip?.filmId ?? null}
                pending={pending}
                onStamp={(kind) => void stamp(kind)}
                onGoTo={(frame) => player.goTo(frame)}
              />
              <Findings
                findings={findings}
                play={play}
                plays={plays}
                vocabulary={vocabulary}
                goTo={log.goTo}
              />
            </div>
          }
        />
      ) : (
        <aside className={classes.noCard}>Mark the first play: I on its first frame, O on its last.</aside>
      )}
    </div>
  );
}
