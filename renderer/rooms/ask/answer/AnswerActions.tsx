import { Button, Menu } from '@mantine/core';
import { useState } from 'react';
import { useCommand } from '../../../commands/Commands.tsx';
import { usePathChooser } from '../../../parts/paths/usePathChooser.tsx';
import { gesture } from '../../../service/gesture.ts';
import { tellDone } from '../../../service/problems.ts';
import { useQuestions } from '../../../service/queries.ts';
import { sheetCalls } from '../../../service/sheet-calls.ts';
import { useStore } from '../../../state/store.ts';
import { askStore } from '../ask-store.ts';
import { MakeCutup } from '../MakeCutup.tsx';
import classes from './answer.module.css';

/** What can be made of the answer: a cut-up, a table of its plays. */
export function AnswerActions() {
  const { question } = useStore(askStore);
  const { choose, dialog } = usePathChooser();
  const { data: saved = [] } = useQuestions();
  const named = saved.find((each) => each.where === question.where);
  const [writing, setWriting] = useState(false);

  const exportPlays = async (ending: '.csv' | '.xlsx') => {
    const [path] =
      (await choose({
        for: 'save',
        title: 'Write the plays of the question as a table',
        suggested: `plays${ending}`,
        endings: ending === '.csv' ? ['.csv', '.xlsx'] : ['.xlsx', '.csv'],
      })) ?? [];
    if (!path) return;
    setWriting(true);
    const written = await gesture(() => sheetCalls.export(question.where, path));
    setWriting(false);
    if (written) tellDone(`${written.rows} plays written to ${written.path}`);
  };
  useCommand('ask.export', () => void exportPlays('.csv'));

  return (
    <div className={classes.actions} data-noprint>
      <MakeCutup
        label="Make a cut-up"
        command="ask.cutup"
        variant="filled"
        name={named?.name ?? ''}
        where={question.where}
      />
      <Menu position="bottom-end">
        <Menu.Target>
          <Button loading={writing}>Export plays</Button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={() => void exportPlays('.csv')}>as CSV</Menu.Item>
          <Menu.Item onClick={() => void exportPlays('.xlsx')}>as XLSX</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      {dialog}
    </div>
  );
}
