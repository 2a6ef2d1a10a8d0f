import type { BoxScore } from '../../../../football/box/box-score.ts';
import { formatClock, formatSpot } from '../../../../football/values.ts';
import { showWhere } from '../../../parts/show-where.ts';
import { showPlays } from '../../../state/showing.ts';
import classes from './box.module.css';
import { boxWords, playerPlays, teamPlays } from './box-questions.ts';

interface BoxProps {
  readonly game: string;
  readonly score: BoxScore;
  /** the film opens over the room, so the box gives way */
  readonly onFilm: () => void;
}

/** Both teams side by side, then players, drives and the scoring; each name opens its plays. */
export function BoxTables({ game, score, onFilm }: BoxProps) {
  const { home, away } = score.teams;
  const open = (work: () => void) => () => {
    onFilm();
    work();
  };
  const team = (name: string) => (
    <button
      type="button"
      onClick={open(() => void showWhere(`${name} with the ball`, teamPlays(game, name)))}
    >
      {name}
    </button>
  );
  const lines = Object.keys(home).filter((key) => key !== 'team') as (keyof typeof home)[];
  return (
    <div className={classes.box}>
      <table>
        <caption>Teams</caption>
        <thead>
          <tr>
            <td />
            <th scope="col">{team(home.team)}</th>
            <th scope="col">{team(away.team)}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((key) => (
            <tr key={key}>
              <th scope="row">{boxWords(key)}</th>
              <td>{home[key]}</td>
              <td>{away[key]}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {Object.entries(score.players).map(([part, rows]) => (
        <PlayerTable key={part} part={part} rows={rows} game={game} open={open} />
      ))}
      <table>
        <caption>Drives</caption>
        <thead>
          <tr>
            {['drive', 'team', 'quarter', 'clock', 'from', 'calls', 'yards', 'points', 'end'].map((word) => (
              <th key={word} scope="col">
                {word}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {score.drives.map((d) => (
            <tr key={`${d.drive} ${d.playIds[0]}`}>
              <th scope="row">
                <button
                  type="button"
                  onClick={open(() =>
                    showPlays({ title: `Drive ${d.drive}, ${d.team}`, playIds: d.playIds }),
                  )}
                >
                  {d.drive}
                </button>
              </th>
              <td>{d.team}</td>
              <td>{d.quarter ?? ''}</td>
              <td>{d.clock === null ? '' : formatClock(d.clock)}</td>
              <td>{d.from === null ? '' : formatSpot(d.from)}</td>
              <td>{d.calls}</td>
              <td>{d.yards}</td>
              <td>{d.points}</td>
              <td>{boxWords(d.end ?? '')}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <table>
        <caption>Scoring</caption>
        <tbody>
          {score.scoring.map((s) => (
            <tr key={`${s.playId} ${s.points}`}>
              <th scope="row">
                <button type="button" onClick={open(() => showPlays({ title: s.what, playIds: [s.playId] }))}>
                  {s.what}
                </button>
              </th>
              <td>{s.team}</td>
              <td>{s.quarter === null ? '' : `Q${s.quarter}`}</td>
              <td>{s.clock === null ? '' : formatClock(s.clock)}</td>
              <td>
                {s.homeScore}–{s.awayScore}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function PlayerTable(props: {
  readonly part: string;
  readonly rows: readonly { readonly team: string; readonly player: string }[];
  readonly game: string;
  readonly open: (work: () => void) => () => void;
}) {
  const { part, rows, game, open } = props;
  const [first] = rows;
  if (!first) return null;
  const keys = Object.keys(first).filter((key) => key !== 'player' && key !== 'team');
  return (
    <table>
      <caption>{boxWords(part)}</caption>
      <thead>
        <tr>
          <th scope="col">player</th>
          <th scope="col">team</th>
          {keys.map((key) => (
            <th key={key} scope="col">
              {boxWords(key)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={`${row.team} ${row.player}`}>
            <th scope="row">
              <button
                type="button"
                onClick={open(
                  () =>
                    void showWhere(`${row.player}, ${boxWords(part)}`, playerPlays(game, part, row.player)),
                )}
              >
                {row.player}
              </button>
            </th>
            <td>{row.team}</td>
            {keys.map((key) => (
              <td key={key}>{String((row as unknown as Record<string, unknown>)[key])}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
