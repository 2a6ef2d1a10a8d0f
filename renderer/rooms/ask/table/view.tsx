import classes from '../ask.module.css';
import type { AskViewProps } from '../views.ts';
import { TablePanel } from './TablePanel.tsx';

/** The answer as a table of metrics by rows and columns. */
export default function TableView({ vocabulary }: AskViewProps) {
  return (
    <div className={classes.barAndBody} data-print-flow>
      <TablePanel vocabulary={vocabulary} />
    </div>
  );
}
