import { ActionIcon, FocusTrap } from '@mantine/core';
import { IconPencil, IconX } from '@tabler/icons-react';
import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { CommandLayer, useCommand } from '../commands/Commands.tsx';
import { PlayThrough } from '../player/PlayThrough.tsx';
import { usePlaysById } from '../service/queries.ts';
import { goToPlace } from '../state/place.ts';
import { closeShowing, type Showing, showingStore } from '../state/showing.ts';
import { useStore } from '../state/store.ts';
import classes from './FilmDrawer.module.css';
import { PlayRail } from './PlayRail.tsx';

/** The film of any number, over whatever room it was asked from. */
export function FilmDrawer() {
  const showing = useStore(showingStore);
  if (!showing) return null;
  return (
    <CommandLayer over>
      <Drawer showing={showing} />
    </CommandLayer>
  );
}

function Drawer({ showing }: { readonly showing: Showing }) {
  const items = useMemo(() => showing.playIds.map((playId) => ({ playId })), [showing.playIds]);
  const { data: plays = [] } = usePlaysById(showing.playIds);
  const [start, setStart] = useState({ at: showing.startAt, turn: 0 });
  const [asked, setAsked] = useState(showing.turn);
  const [index, setIndex] = useState(showing.startAt);
  const [, navigate] = useLocation();
  useCommand('playlist.close', closeShowing);

  if (asked !== showing.turn) {
    setAsked(showing.turn);
    setStart({ at: showing.startAt, turn: start.turn + 1 });
  }

  const toLog = () => {
    const play = plays.find((each) => each.playId === showing.playIds[index]);
    if (!play) return;
    goToPlace({ gameId: play.gameId, playId: play.playId });
    closeShowing();
    navigate('/log');
  };

  return (
    <FocusTrap active>
      <section className={classes.drawer} role="dialog" aria-modal aria-label={showing.title} data-noprint>
        <div className={classes.head}>
          {/* takes the first focus, so that the film keys work at once */}
          <h2 tabIndex={-1} data-autofocus>
            {showing.title}
          </h2>
          <ActionIcon
            aria-label="Open this play in the Log room"
            title="Open in the Log room"
            onClick={toLog}
          >
            <IconPencil size={17} />
          </ActionIcon>
          <ActionIcon aria-label="Close the film" title="Close (Esc)" onClick={closeShowing}>
            <IconX size={17} />
          </ActionIcon>
        </div>
        <PlayRail
          plays={plays}
          index={index}
          onChoose={(at) => setStart(({ turn }) => ({ at, turn: turn + 1 }))}
        />
        <PlayThrough items={items} startAt={start.at} turn={start.turn} onIndex={setIndex} />
      </section>
    </FocusTrap>
  );
}
