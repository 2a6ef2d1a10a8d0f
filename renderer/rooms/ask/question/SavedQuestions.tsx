import { ActionIcon, Button, Popover, TextInput } from '@mantine/core';
import { IconTrash } from '@tabler/icons-react';
import { useState } from 'react';
import type { SavedQuestionView } from '../../../../electron/service/views.ts';
import { FieldSet } from '../../../../football/question/fieldset.ts';
import { parseQuestion } from '../../../../football/question/parse.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { tellDone, tellProblem } from '../../../service/problems.ts';
import { useQuestions } from '../../../service/queries.ts';
import { questionCalls } from '../../../service/question-calls.ts';
import { useStore } from '../../../state/store.ts';
import { askActions, askStore } from '../ask-store.ts';
import text from './question.module.css';

const refresh = () => cache.invalidateQueries({ queryKey: keys.questions });

/** Questions that the staff keeps: open one, save this one, take one away. */
export function SavedQuestions({ fields }: { readonly fields: readonly FieldDefinition[] }) {
  const { data: saved = [] } = useQuestions();
  const { question } = useStore(askStore);
  const [listed, setListed] = useState(false);
  const [naming, setNaming] = useState(false);
  useCommand('ask.saved', () => setListed(true));
  useCommand('ask.save', () => setNaming(true));
  const here = saved.find((each) => each.where === question.where && each.where !== '');

  const open = (chosen: SavedQuestionView) => {
    setListed(false);
    const read = parseQuestion(chosen.where, new FieldSet(fields, saved));
    if (read.ok) askActions.ask(read.value);
    else tellProblem(read.problem);
  };

  return (
    <>
      <Popover opened={listed} onChange={setListed} position="bottom-start" width={330} trapFocus shadow="md">
        <Popover.Target>
          <Button className={text.saved} onClick={() => setListed((now) => !now)}>
            {here ? here.name : `Saved questions (${saved.length})`}
          </Button>
        </Popover.Target>
        <Popover.Dropdown aria-label="Saved questions">
          {saved.length === 0 && <p className={text.none}>None yet. Ask something, then save it.</p>}
          <ul className={text.savedList}>
            {saved.map((each) => (
              <li key={each.questionId} className={text.savedLine}>
                <button
                  type="button"
                  className={text.openSaved}
                  title={each.where}
                  onClick={() => open(each)}
                >
                  {each.name}
                </button>
                <ActionIcon
                  aria-label={`Take ${each.name} away`}
                  onClick={() => void gesture(() => questionCalls.remove(each.questionId)).then(refresh)}
                >
                  <IconTrash size={15} />
                </ActionIcon>
              </li>
            ))}
          </ul>
        </Popover.Dropdown>
      </Popover>
      <Popover opened={naming} onChange={setNaming} position="bottom-start" width={300} trapFocus shadow="md">
        <Popover.Target>
          <Button disabled={question.where === ''} onClick={() => setNaming(true)}>
            Save
          </Button>
        </Popover.Target>
        <Popover.Dropdown aria-label="Save the question">
          {naming && (
            <SaveForm where={question.where} name={here?.name ?? ''} onDone={() => setNaming(false)} />
          )}
        </Popover.Dropdown>
      </Popover>
    </>
  );
}

interface SaveFormProps {
  readonly where: string;
  readonly name: string;
  readonly onDone: () => void;
}

function SaveForm({ where, name: known, onDone }: SaveFormProps) {
  const [name, setName] = useState(known);
  const save = async () => {
    if (name.trim() === '') return;
    const saved = await gesture(() => questionCalls.save(name.trim(), where));
    if (!saved) return;
    void refresh();
    tellDone(`“${saved.name}” is saved.`);
    onDone();
  };
  return (
    <form
      className={text.saveForm}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <TextInput
        label="Name of the question"
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        data-autofocus
      />
      <code className={text.where}>{where}</code>
      <Button type="submit" variant="filled">
        Save
      </Button>
    </form>
  );
}
