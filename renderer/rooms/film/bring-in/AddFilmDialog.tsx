import { Autocomplete, Button, Radio, Select } from '@mantine/core';
import { useState } from 'react';
import type { Angle, GameView } from '../../../../electron/service/views.ts';
import { Dialog } from '../../../parts/Dialog.tsx';
import { cache, keys } from '../../../service/cache.ts';
import { filmCalls } from '../../../service/film-calls.ts';
import { gesture } from '../../../service/gesture.ts';
import classes from '../film.module.css';
import { chooseGame } from '../film-store.ts';
import { ANGLES } from '../film-words.ts';

interface AddFilmDialogProps {
  readonly paths: readonly string[];
  readonly game: GameView | null;
  readonly games: readonly GameView[];
  readonly onClose: () => void;
}

/** Before film comes in: which game, which angle, and whether each file is one play. */
export function AddFilmDialog({ paths, game, games, onClose }: AddFilmDialogProps) {
  const [title, setTitle] = useState(game?.title ?? '');
  const [angle, setAngle] = useState<string>('guess');
  const [way, setWay] = useState(paths.length === 1 && /\.\w{2,4}$/.test(paths[0]!) ? 'long' : 'plays');
  const [sending, setSending] = useState(false);

  const start = async () => {
    if (title.trim() === '' || sending) return;
    setSending(true);
    const job = await gesture(() =>
      filmCalls.addFilms({
        paths,
        gameTitle: title.trim(),
        angle: angle === 'guess' ? null : (angle as Angle),
        onePlayPerFile: way === 'plays',
      }),
    );
    setSending(false);
    if (!job) return;
    void cache.invalidateQueries({ queryKey: keys.jobs });
    const known = games.find((each) => each.title === title.trim());
    if (known) chooseGame(known.gameId);
    onClose();
  };

  return (
    <Dialog opened onClose={onClose} title="Bring film in" size={560}>
      <form
        className={classes.form}
        onSubmit={(event) => {
          event.preventDefault();
          void start();
        }}
      >
        <ul className={classes.files} aria-label="Chosen">
          {paths.slice(0, 200).map((path) => (
            <li key={path} title={path}>
              {path}
            </li>
          ))}
          {paths.length > 200 && <li>and {paths.length - 200} more</li>}
        </ul>
        <Autocomplete
          size="xs"
          label="Game"
          description="One that is there, or the title of a new one"
          data={games.map((each) => each.title)}
          value={title}
          onChange={setTitle}
          data-autofocus
        />
        <Radio.Group label="Each file is" value={way} onChange={setWay}>
          <Radio
            mt={6}
            size="xs"
            value="plays"
            label="one play"
            description="Plays are made in the order of the files’ names, and files of the other angle join them."
          />
          <Radio
            mt={8}
            size="xs"
            value="long"
            label="a long film with many plays"
            description="Mark each play in the Log room with an in and an out key."
          />
        </Radio.Group>
        <Select
          label="Angle"
          data={[{ value: 'guess', label: 'Guess from each file’s name' }, ...ANGLES]}
          value={angle}
          onChange={(value) => setAngle(value ?? 'guess')}
          allowDeselect={false}
        />
        <div className={classes.buttons}>
          <Button onClick={onClose}>Cancel</Button>
          <Button type="submit" variant="filled" loading={sending} disabled={title.trim() === ''}>
            Bring in
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
