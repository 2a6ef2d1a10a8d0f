import { useTeams, useTells, useTendencies } from '../../../service/study-calls.ts';
import { useStore } from '../../../state/store.ts';
import { askStore } from '../ask-store.ts';
import type { AskViewProps } from '../views.ts';
import { ContextTree } from './ContextTree.tsx';
import { NowPanel } from './NowPanel.tsx';
import { TellsTable } from './TellsTable.tsx';
import { TendencyBar } from './TendencyBar.tsx';
import classes from './tendencies.module.css';
import { tendencyStore } from './tendency-store.ts';

/** What a team calls, given the situation; our own team looked at the same way is the self-scout. */
export default function TendenciesView({ vocabulary }: AskViewProps) {
  const { question } = useStore(askStore);
  const choice = useStore(tendencyStore);
  const { data: teams } = useTeams();
  const opponent = teams?.teams.find((name) => name !== teams.ours) ?? teams?.ours ?? '';
  const team = teams?.teams.includes(choice.team) ? choice.team : opponent;
  const { withinSituation, ...rest } = choice;
  const whose = team === '' ? null : { ...rest, team, where: question.where };
  const { data: view, error } = useTendencies(whose);
  const { data: tells } = useTells(whose && { ...whose, withinSituation, pairs: true });
  if (!teams || !whose) return null;
  const self = team === teams.ours ? 'Self-scout' : 'Tendencies';
  return (
    <div className={classes.page}>
      <h2 className="unseen">
        {self} of {team}
      </h2>
      <TendencyBar vocabulary={vocabulary} teams={teams.teams} team={team} ours={teams.ours} />
      {error && <p role="alert">{error.message}</p>}
      <NowPanel key={team + choice.side} whose={whose} />
      {view && (
        <section className={classes.part} aria-label="Calls by context">
          <h3>
            {self}: what {team} {choice.side === 'offense' ? 'calls' : 'plays on defense'}, by context
          </h3>
          {view.playIds.length === 0 ? (
            <p className={classes.soft}>
              No play of this side has the call tagged
              {view.untagged > 0 ? `; ${view.untagged} plays are waiting for the tag` : ''}. Choose another
              call, or widen the question.
            </p>
          ) : (
            <>
              <p className={classes.verdict}>{view.verdict}</p>
              <ContextTree view={view} />
            </>
          )}
        </section>
      )}
      {tells && tells.tells.length > 0 && (
        <section className={classes.part} aria-label="Tells">
          <h3>Tells: the tags that change the call most</h3>
          <TellsTable view={tells} />
        </section>
      )}
    </div>
  );
}
