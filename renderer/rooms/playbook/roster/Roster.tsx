import { Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import page from '../playbook.module.css';
import { AddPlayer } from './AddPlayer.tsx';
import { PlayerRow } from './PlayerRow.tsx';
import { playersShown } from './players.ts';
import classes from './roster.module.css';

/** Our players and theirs. */
export function Roster({ vocabulary }: { readonly vocabulary: VocabularyView }) {
  const { players, teams } = vocabulary;
  const [team, setTeam] = useState<string | null>(teams.ours || null);
  const [sought, setSought] = useState('');
  const names = [
    ...new Set([teams.ours, ...teams.opponents, ...players.map((player) => player.team ?? '')]),
  ].filter((name) => name !== '');
  const shown = playersShown(players, team, sought);
  return (
    <div className={page.page}>
      <div className={page.head}>
        <Select
          label="Team"
          w={220}
          clearable
          placeholder="every team"
          data={names}
          value={team}
          onChange={setTeam}
        />
        <TextInput
          data-playbook-find
          label="Find"
          placeholder="number, name or position"
          w={200}
          value={sought}
          onChange={(event) => setSought(event.currentTarget.value)}
        />
        <span className={page.grow} />
        <AddPlayer team={team ?? teams.ours} teams={names} />
      </div>
      {shown.length === 0 ? (
        <p className={page.none}>
          {players.length === 0
            ? 'No player yet. Add the ones you log by number; a number without a player can be logged all the same.'
            : sought === ''
              ? 'No player of this team yet.'
              : 'No player of this team is found so.'}
        </p>
      ) : (
        <div className={page.scroll}>
          <table className={page.table}>
            <thead>
              <tr>
                <th scope="col">Number</th>
                <th scope="col">Name</th>
                <th scope="col">Position</th>
                <th scope="col">Team</th>
                <th scope="col" className={classes.actions}>
                  Film
                </th>
              </tr>
            </thead>
            <tbody>
              {shown.map((player) => (
                <PlayerRow key={player.id} player={player} teams={names} fields={vocabulary.fields} />
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}
