import { Autocomplete, Button, NumberInput, TextInput } from '@mantine/core';
import { useState } from 'react';
import { cache, keys } from '../../../service/cache.ts';
import { filmCalls } from '../../../service/film-calls.ts';
import { gesture } from '../../../service/gesture.ts';
import { chooseGame } from '../film-store.ts';
import classes from './games.module.css';

interface NewGameProps {
  readonly opponents: readonly string[];
  readonly onDone: () => void;
}

/** What is known of a game before its film: the title is enough. */
export function NewGame({ opponents, onDone }: NewGameProps) {
  const [title, setTitle] = useState('');
  const [opponent, setOpponent] = useState('');
  const [season, setSeason] = useState<number | string>('');
  const [week, setWeek] = useState<number | string>('');
  const [date, setDate] = useState('');
  const [sending, setSending] = useState(false);

  const add = async () => {
    const name = title.trim() || opponent.trim();
    if (name === '' || sending) return;
    setSending(true);
    const game = await gesture(() =>
      filmCalls.addGame({
        title: name,
        opponent: opponent.trim() || null,
        season: typeof season === 'number' ? season : null,
        week: typeof week === 'number' ? week : null,
        date: date || null,
      }),
    );
    setSending(false);
    if (!game) return;
    await cache.invalidateQueries({ queryKey: keys.games });
    chooseGame(game.gameId);
    onDone();
  };

  return (
    <form
      className={classes.form}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <TextInput
        label="Title"
        description="as you will ask for it"
        value={title}
        onChange={(event) => setTitle(event.currentTarget.value)}
        data-autofocus
      />
      <Autocomplete
        size="xs"
        label="Opponent"
        data={[...opponents]}
        value={opponent}
        onChange={setOpponent}
      />
      <div className={classes.pair}>
        <NumberInput label="Season" value={season} onChange={setSeason} min={1900} max={2200} />
        <NumberInput label="Week" value={week} onChange={setWeek} min={0} max={60} />
      </div>
      <TextInput
        type="date"
        label="Date"
        value={date}
        onChange={(event) => setDate(event.currentTarget.value)}
      />
      <Button
        type="submit"
        variant="filled"
        loading={sending}
        disabled={title.trim() === '' && opponent.trim() === ''}
      >
        Add the game
      </Button>
    </form>
  );
}
