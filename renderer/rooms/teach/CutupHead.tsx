import { Button, Menu, Select } from '@mantine/core';
import { useLocation } from 'wouter';
import type { CutupDetailView, PlayView } from '../../../electron/service/views.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { KeptText } from '../../parts/KeptText.tsx';
import type { CutupChange } from '../../service/cutup-calls.ts';
import { useVocabulary } from '../../service/queries.ts';
import { askActions } from '../ask/ask-store.ts';
import { anglesOf, choiceOf, choicesWith } from './angle-choices.ts';
import { ExportButton } from './ExportButton.tsx';
import { Note } from './Note.tsx';
import classes from './teach.module.css';

interface CutupHeadProps {
  readonly cutup: CutupDetailView;
  readonly plays: readonly PlayView[];
  readonly onChange: (change: CutupChange) => Promise<void>;
}

/** What the cut-up is: name, folder, angles, note, the question it came from. */
export function CutupHead({ cutup, plays, onChange }: CutupHeadProps) {
  const [, navigate] = useLocation();
  const { data: vocabulary } = useVocabulary();
  const filmed = plays.filter((play) => play.clips.length > 0).length;
  const ask = () => {
    const read = parseQuestion(cutup.where ?? '', vocabulary?.fields ?? []);
    if (read.ok) askActions.ask(read.value);
    navigate('/ask');
  };
  return (
    <header className={classes.head}>
      <div className={classes.headLine}>
        <KeptText
          label="Name of the cut-up"
          value={cutup.name}
          onKeep={(name) => void onChange({ name })}
          className={classes.wide}
          inputClassName={classes.name}
        />
        <ExportButton cutup={cutup} />
        <Menu position="bottom-end">
          <Menu.Target>
            <Button aria-label="More for this cut-up">More</Button>
          </Menu.Target>
          <Menu.Dropdown>
            {cutup.where !== null && <Menu.Item onClick={ask}>Ask its question again</Menu.Item>}
            <Menu.Item onClick={() => window.print()}>Print the list</Menu.Item>
            <Menu.Item
              color="red"
              onClick={() => void onChange({ removed: true }).then(() => navigate('/teach'))}
            >
              Take this cut-up away
            </Menu.Item>
          </Menu.Dropdown>
        </Menu>
      </div>
      <div className={classes.headLine}>
        <Select
          aria-label="Angles of the cut-up"
          w={200}
          allowDeselect={false}
          data={choicesWith(cutup.angles)}
          value={choiceOf(cutup.angles)}
          onChange={(choice) => choice && void onChange({ angles: anglesOf(choice) })}
        />
        <KeptText
          label="Folder"
          value={cutup.folder ?? ''}
          placeholder="no folder"
          onKeep={(folder) => void onChange({ folder: folder || null })}
          mayBeEmpty
        />
        <span className={classes.sum}>
          {cutup.list.length === 1 ? '1 clip' : `${cutup.list.length} clips`}
          {filmed < plays.length && `, ${plays.length - filmed} without film`}
        </span>
      </div>
      <Note label="Note on the cut-up" value={cutup.note} onKeep={(note) => void onChange({ note })} />
    </header>
  );
}
