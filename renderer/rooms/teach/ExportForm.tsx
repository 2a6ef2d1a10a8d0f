import { Button, Checkbox, MultiSelect, Radio } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { CutupDetailView } from '../../../electron/service/views.ts';
import { keys } from '../../service/cache.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { useVocabulary } from '../../service/queries.ts';
import classes from './export.module.css';
import {
  costInWords,
  type Ending,
  type ExportChoice,
  isReel,
  reelChoices,
  waysInWords,
} from './export-choices.ts';

const FORMATS: readonly { value: Ending; label: string }[] = [
  { value: '.mp4', label: 'One reel (MP4)' },
  { value: '.m3u8', label: 'Playlist (M3U8)' },
  { value: '.csv', label: 'Its plays (CSV)' },
  { value: '.xlsx', label: 'Its plays (XLSX)' },
];
const QUALITIES = [
  { value: 'standard', label: 'Standard', hint: 'as filmed wherever clips can be copied' },
  { value: 'fine', label: 'Fine', hint: 'the same; what must be encoded is finer and larger' },
  { value: 'small', label: 'Small', hint: 'everything encoded; smallest file, longest wait' },
] as const;
const SIZES = [
  { value: 'source', label: 'As filmed' },
  { value: '1080', label: '1080 lines' },
  { value: '720', label: '720 lines' },
  { value: '540', label: '540 lines' },
] as const;

interface ExportFormProps {
  readonly cutup: CutupDetailView;
  readonly choice: ExportChoice;
  readonly onChange: (change: Partial<ExportChoice>) => void;
  readonly onWrite: () => void;
}

/** What is written and how, with what it will cost. */
export function ExportForm({ cutup, choice, onChange, onWrite }: ExportFormProps) {
  const reel = isReel(choice.ending);
  return (
    <form
      className={classes.form}
      onSubmit={(event) => {
        event.preventDefault();
        onWrite();
      }}
    >
      <Radio.Group
        label="What"
        value={choice.ending}
        onChange={(value) => onChange({ ending: value as Ending })}
      >
        <div className={classes.pairs}>
          {FORMATS.map(({ value, label }) => (
            <Radio key={value} value={value} label={label} />
          ))}
        </div>
      </Radio.Group>
      {reel && <ReelChoicesForm choice={choice} onChange={onChange} />}
      {reel && <Cost cutup={cutup} choice={choice} />}
      <div className={classes.end}>
        <Button type="submit" variant="filled" data-autofocus>
          Choose where to write it
        </Button>
      </div>
    </form>
  );
}

function ReelChoicesForm({ choice, onChange }: Pick<ExportFormProps, 'choice' | 'onChange'>) {
  const { data: vocabulary } = useVocabulary();
  const fields = (vocabulary?.fields ?? []).map(({ key, label }) => ({ value: key, label }));
  const known = new Set(fields.map(({ value }) => value));
  return (
    <>
      <Radio.Group
        label="Quality"
        value={choice.quality}
        onChange={(value) => onChange({ quality: value as ExportChoice['quality'] })}
      >
        <div className={classes.rows}>
          {QUALITIES.map(({ value, label, hint }) => (
            <Radio key={value} value={value} label={`${label}: ${hint}`} />
          ))}
        </div>
      </Radio.Group>
      <Radio.Group
        label="Size of the picture, at most"
        value={choice.size}
        onChange={(value) => onChange({ size: value as ExportChoice['size'] })}
      >
        <div className={classes.pairs}>
          {SIZES.map(({ value, label }) => (
            <Radio key={value} value={value} label={label} />
          ))}
        </div>
      </Radio.Group>
      <div className={classes.rows}>
        <Checkbox
          label="Title card with the cut-up's name in front"
          checked={choice.titleCard}
          onChange={(event) => onChange({ titleCard: event.currentTarget.checked })}
        />
        <Checkbox
          label="Tags of each play along the lower edge (every clip is then encoded)"
          checked={choice.tags}
          onChange={(event) => onChange({ tags: event.currentTarget.checked })}
        />
        {choice.tags && (
          <MultiSelect
            label="Which tags"
            data={fields}
            value={choice.fields.filter((key) => known.has(key))}
            maxValues={12}
            searchable
            onChange={(keysChosen) => onChange({ fields: keysChosen })}
          />
        )}
      </div>
    </>
  );
}

function Cost({ cutup, choice }: Pick<ExportFormProps, 'cutup' | 'choice'>) {
  const choices = reelChoices(choice);
  const { data, isError } = useQuery({
    queryKey: [...keys.cutup(cutup.cutupId), 'cost', choices],
    queryFn: () => cutupCalls.estimate(cutup.cutupId, choices),
    placeholderData: keepPreviousData,
    retry: false,
  });
  return (
    <p className={classes.cost} role="status">
      {isError ? 'What it will cost is not known: a film of these clips is not there.' : null}
      {!isError && !data ? 'Working out what it will cost ...' : null}
      {data && !isError ? (
        <>
          <strong>{costInWords(data)}.</strong>
          <br />
          {waysInWords(data)}
        </>
      ) : null}
    </p>
  );
}
