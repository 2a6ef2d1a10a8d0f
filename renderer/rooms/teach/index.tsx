import { useLocation } from 'wouter';
import { useCutups } from '../../service/queries.ts';
import { CutupBench } from './CutupBench.tsx';
import { CutupList } from './CutupList.tsx';
import classes from './teach.module.css';

/** Cut-ups on the left, the one that is open beside them. Its id stands in the address. */
export default function TeachRoom() {
  const { data: cutups } = useCutups();
  const [path] = useLocation();
  if (!cutups) return null;
  const asked = decodeURIComponent(path.split('/')[2] ?? '');
  const open = cutups.find((each) => each.cutupId === asked) ?? cutups[0] ?? null;
  return (
    <div className={classes.room} data-print-flow>
      <h1 className="unseen">Teach</h1>
      <CutupList cutups={cutups} open={open?.cutupId ?? null} />
      {open ? (
        <CutupBench key={open.cutupId} cutupId={open.cutupId} />
      ) : (
        <div className={classes.empty}>
          <h2>There is no cut-up yet.</h2>
          <p>
            Ask a question in the Ask room and choose “Make a cut-up”, there or on any number of the table. It
            then stands here: to order, trim, note, play and hand out.
          </p>
        </div>
      )}
    </div>
  );
}
