import { Button, Checkbox, MultiSelect, SegmentedControl, Select } from '@mantine/core';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import { contextFields, DEFENSE_CALLS, OFFENSE_CALLS } from '../../../../football/tendencies/contexts.ts';
import { useStore } from '../../../state/store.ts';
import classes from './tendencies.module.css';
import { chooseTendency, tendencyStore } from './tendency-store.ts';

interface TendencyBarProps {
  readonly vocabulary: VocabularyView;
  readonly teams: readonly string[];
  readonly team: string;
  readonly ours: string;
}

/** Who, which call, given what and in which order. */
export function TendencyBar({ vocabulary, teams, team, ours }: TendencyBarProps) {
  const choice = useStore(tendencyStore);
  const labelOf = (key: string) => vocabulary.fields.find((field) => field.key === key)?.label ?? key;
  const calls = choice.side === 'offense' ? OFFENSE_CALLS : DEFENSE_CALLS;
  return (
    <div className={classes.bar} data-noprint>
      <Select
        label="Team"
        data={teams.map((name) => ({ value: name, label: name === ours ? `${name} (self-scout)` : name }))}
        value={team}
        onChange={(name) => name && chooseTendency({ team: name })}
        allowDeselect={false}
        w={170}
      />
      <div>
        <span className={classes.label} id="tendency-side">
          Side
        </span>
        <SegmentedControl
          aria-labelledby="tendency-side"
          size="xs"
          data={[
            { value: 'offense', label: 'Offense' },
            { value: 'defense', label: 'Defense' },
          ]}
          value={choice.side}
          onChange={(side) =>
            chooseTendency(
              side === 'offense'
                ? { side: 'offense', call: 'playKind' }
                : { side: 'defense', call: 'coverage' },
            )
          }
        />
      </div>
      <Select
        label="Call"
        data={calls.map((key) => ({ value: key, label: labelOf(key) }))}
        value={choice.call}
        onChange={(call) => call && chooseTendency({ call })}
        allowDeselect={false}
        w={140}
      />
      <MultiSelect
        label="Given, the first matters most"
        data={contextFields(vocabulary.fields)
          .filter(({ key }) => key !== choice.call)
          .map(({ key, label }) => ({ value: key, label }))}
        value={[...choice.contexts]}
        onChange={(contexts) => chooseTendency({ contexts })}
        maxValues={6}
        searchable
        className={classes.contexts ?? ''}
      />
      <Checkbox
        label="Families"
        checked={choice.families}
        onChange={(event) => chooseTendency({ families: event.currentTarget.checked })}
      />
      {ours !== '' && team !== ours && (
        <Button onClick={() => chooseTendency({ team: ours })}>Self-scout</Button>
      )}
    </div>
  );
}
