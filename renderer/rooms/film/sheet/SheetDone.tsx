import { Button } from '@mantine/core';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import type { SheetReport } from '../../../service/sheet-calls.ts';
import classes from './sheet.module.css';

interface SheetDoneProps {
  readonly report: SheetReport;
  readonly vocabulary: VocabularyView;
  readonly onClose: () => void;
}

/** What came in, what changed, and every cell that was refused with its row and reason. */
export function SheetDone({ report, vocabulary, onClose }: SheetDoneProps) {
  const label = (key: string) => vocabulary.fields.find((field) => field.key === key)?.label ?? key;
  return (
    <div className={classes.sheet}>
      <p role="status" className={classes.done}>
        {report.imported} plays came in, {report.updated} were changed, {report.unchanged} said the same as
        before.
      </p>
      {report.newTerms.length > 0 && (
        <p className={classes.lead}>
          New in the playbook: {report.newTerms.map((term) => `${label(term.field)} ${term.name}`).join(', ')}
        </p>
      )}
      {report.unread.length > 0 && (
        <p className={classes.lead}>Columns left out: {report.unread.join(', ')}</p>
      )}
      {report.refused.length > 0 && (
        <>
          <h3 className={classes.mapHead}>{report.refused.length} refused</h3>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
          <section className={classes.refusals} tabIndex={0} aria-label="Refused">
            <table className={classes.map}>
              <thead>
                <tr>
                  <th scope="col" className={classes.count}>
                    Row
                  </th>
                  <th scope="col">Column</th>
                  <th scope="col">Why</th>
                </tr>
              </thead>
              <tbody>
                {report.refused.map((each, index) => (
                  <tr key={index}>
                    <td className={classes.count}>{each.row}</td>
                    <th scope="row">{each.column}</th>
                    <td>{each.reason}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      )}
      <div className={classes.foot}>
        <Button variant="filled" onClick={onClose} data-autofocus>
          Done
        </Button>
      </div>
    </div>
  );
}
