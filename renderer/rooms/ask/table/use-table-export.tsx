import { type ReactNode, useState } from 'react';
import type { PivotRequest } from '../../../../electron/service/pivot-views.ts';
import { usePathChooser } from '../../../parts/paths/usePathChooser.tsx';
import { gesture } from '../../../service/gesture.ts';
import { tellDone } from '../../../service/problems.ts';
import { questionCalls } from '../../../service/question-calls.ts';

type Ending = '.csv' | '.xlsx' | '.pdf';

/** Asks where to and writes the table there. */
export function useTableExport(request: PivotRequest): {
  write: (ending: Ending) => Promise<void>;
  writing: boolean;
  dialog: ReactNode;
} {
  const { choose, dialog } = usePathChooser();
  const [writing, setWriting] = useState(false);
  const write = async (ending: Ending) => {
    const others = (['.xlsx', '.csv', '.pdf'] as const).filter((each) => each !== ending);
    const [path] =
      (await choose({
        for: 'save',
        title: 'Write the table',
        suggested: `table${ending}`,
        endings: [ending, ...others],
      })) ?? [];
    if (!path) return;
    setWriting(true);
    const written = await gesture(() => questionCalls.exportPivot(request, path));
    setWriting(false);
    if (written) tellDone(`${written.rows} rows written to ${written.path}`);
  };
  return { write, writing, dialog };
}
