import classes from '../ask.module.css';
import type { AskViewProps } from '../views.ts';
import { TableBar } from './TableBar.tsx';
import { TablePanel } from './TablePanel.tsx';

/** The answer as a table of metrics by rows and columns. */
export default function TableView({ vocabulary }: AskViewProps) {
  return (
    <div className={classes.barAndBody} data-print-flow>
      <TableBar fields={vocabulary.fields} />
      <TablePanel vocabulary={vocabulary} />
    </div>
  );
}
