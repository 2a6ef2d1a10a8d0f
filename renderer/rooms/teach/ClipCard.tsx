import { Button, Select, Switch } from '@mantine/core';
import type { CutupDetailView, PlayView } from '../../../electron/service/views.ts';
import { ANGLE_WORDS } from '../../player/angles.ts';
import { useStore } from '../../state/store.ts';
import { anglesOf, choiceOf, choicesWith } from './angle-choices.ts';
import { Note } from './Note.tsx';
import classes from './teach.module.css';
import { shownFrames, trimInWords } from './trims.ts';
import type { Bench } from './use-bench.ts';

interface ClipCardProps {
  readonly bench: Bench;
  readonly cutup: CutupDetailView;
  readonly play: PlayView | null;
}

const AS_CUTUP = 'as the cut-up';

/** What can be said of the clip that is shown: trim, angles, note, drop. */
export function ClipCard({ bench, cutup, play }: ClipCardProps) {
  const { clip } = useStore(bench.player.state);
  const item = bench.current;
  if (!item) return null;
  const own = play?.clips.find((each) => each.filmId === clip?.filmId && each.angle === clip?.angle);
  const trim = own && trimInWords(shownFrames(item, own), own);
  return (
    <section className={classes.card} aria-label={`Clip ${bench.at + 1}`}>
      <div className={classes.cardLine}>
        <h3>Clip {bench.at + 1}</h3>
        <Button
          disabled={!own}
          onClick={() => bench.trim('in')}
          title="The clip begins at the frame shown (I)"
        >
          Begin here
        </Button>
        <Button
          disabled={!own}
          onClick={() => bench.trim('out')}
          title="The clip ends with the frame shown (O)"
        >
          End here
        </Button>
        <Switch
          size="xs"
          label="Film around it"
          title="Show the film before and after the clip, to trim it longer (B)"
          checked={bench.wide}
          onChange={(event) => bench.setWide(event.currentTarget.checked)}
        />
        <span className={classes.grow} />
        <Button onClick={() => void bench.drop(bench.at)} title="Drop the clip; the play stays (Delete)">
          Drop
        </Button>
      </div>
      <div className={classes.cardLine}>
        <span className={classes.trim}>
          {own
            ? `${ANGLE_WORDS[own.angle]}: ${trim ? `trimmed, ${trim} frames` : 'as it was logged'}`
            : 'No film'}
        </span>
        {Object.keys(item.trims).length > 0 && <Button onClick={bench.untrim}>Take the trims away</Button>}
        <span className={classes.grow} />
        <Select
          aria-label="Angles of this clip"
          w={210}
          allowDeselect={false}
          data={[
            { value: AS_CUTUP, label: 'Angles as the cut-up' },
            ...choicesWith(item.angles ?? cutup.angles),
          ]}
          value={item.angles ? choiceOf(item.angles) : AS_CUTUP}
          onChange={(choice) =>
            void bench.changeItem(item, {
              angles: choice === null || choice === AS_CUTUP ? null : anglesOf(choice),
            })
          }
        />
      </div>
      <Note
        id="clip-note"
        label="Note on the clip"
        value={item.note}
        onKeep={(note) => void bench.changeItem(item, { note })}
      />
    </section>
  );
}
