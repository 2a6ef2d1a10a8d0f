import { Button } from '@mantine/core';
import type { PlayerView } from '../../../../electron/service/views.ts';
import { playerLabel } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { KeptText } from '../../../parts/KeptText.tsx';
import { showWhere } from '../../../parts/show-where.ts';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { type NewPlayer, playbookCalls } from '../../../service/playbook-calls.ts';
import { tellDone, tellProblem } from '../../../service/problems.ts';
import { jerseyNumber, playsOfPlayer } from './players.ts';
import classes from './roster.module.css';

interface PlayerRowProps {
  readonly player: PlayerView;
  readonly teams: readonly string[];
  readonly fields: readonly FieldDefinition[];
}

/** One player; each part is kept when it is left. */
export function PlayerRow({ player, teams, fields }: PlayerRowProps) {
  const label = playerLabel(player);
  const change = async (what: Partial<NewPlayer> & { removed?: boolean }) => {
    const changed = await gesture(() => playbookCalls.changePlayer(player.id, what));
    void cache.invalidateQueries({ queryKey: keys.vocabulary });
    if (changed && what.removed) tellDone(`${label} is off the roster. Undo brings him back.`);
  };
  const changeNumber = (text: string) => {
    const number = jerseyNumber(text);
    if (number === undefined)
      tellProblem({
        code: 'jersey-number',
        message: `${text} is no jersey number.`,
        kept: `${label} keeps his.`,
        next: 'Type 0 to 99.',
      });
    else void change({ number });
  };
  return (
    <tr>
      <td className={classes.number}>
        <KeptText
          label={`Number of ${label}`}
          value={player.number === null ? '' : String(player.number)}
          mayBeEmpty
          onKeep={changeNumber}
        />
      </td>
      <td className={classes.name}>
        <KeptText
          label={`Name of ${label}`}
          value={player.name ?? ''}
          mayBeEmpty
          onKeep={(name) => void change({ name: name || null })}
        />
      </td>
      <td className={classes.number}>
        <KeptText
          label={`Position of ${label}`}
          value={player.position ?? ''}
          mayBeEmpty
          onKeep={(position) => void change({ position: position || null })}
        />
      </td>
      <td className={classes.name}>
        <KeptText
          label={`Team of ${label}`}
          value={player.team ?? ''}
          mayBeEmpty
          offers={teams}
          onKeep={(team) => void change({ team: team || null })}
        />
      </td>
      <td className={classes.actions}>
        <Button
          aria-label={`Plays of ${label}`}
          onClick={() => void showWhere(label, playsOfPlayer(player, fields))}
        >
          Plays
        </Button>{' '}
        <Button aria-label={`Take ${label} off the roster`} onClick={() => void change({ removed: true })}>
          Take off
        </Button>
      </td>
    </tr>
  );
}
