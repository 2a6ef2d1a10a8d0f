import type { PlayView } from '../../../electron/service/views.ts';
import type { FieldValue } from '../../../football/values.ts';
import { termId } from '../../../football/vocabulary/terms.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { changePlays, gesture } from '../../service/gesture.ts';
import { takeIn } from '../../service/play-cache.ts';
import { playCalls } from '../../service/play-calls.ts';
import type { Log } from './use-log.ts';

/** The predicted situation as values that a person enters by accepting it. */
export function predictedChanges(play: PlayView): { field: string; value: FieldValue }[] {
  return Object.entries(play.prediction ?? {}).flatMap(([field, value]) => {
    if (value === null) return [];
    return [
      {
        field,
        value:
          typeof value === 'number'
            ? { kind: 'number' as const, number: value }
            : { kind: 'term' as const, termId: termId(field, value), name: value },
      },
    ];
  });
}

/** Binds the keys that move between plays, add them and take them away. */
export function usePlayCommands(log: Log): void {
  const { play, game } = log;
  useCommand('play.next', () => log.goBy(1));
  useCommand('play.previous', () => log.goBy(-1));
  useCommand('drive.next', () => log.goByDrive(1));
  useCommand('drive.previous', () => log.goByDrive(-1));
  useCommand('play.nextUnlogged', () => log.goToUnlogged());
  useCommand('play.add', async () => {
    const made = game && (await gesture(() => playCalls.add(game.gameId, play?.playId ?? null)));
    if (!made) return;
    takeIn(made.changed);
    log.goTo(made.playId);
  });
  useCommand('play.remove', async () => {
    if (!play) return;
    const neighbour = log.plays[log.at + 1] ?? log.plays[log.at - 1];
    const removed = await changePlays(() => playCalls.remove(play.playId));
    if (removed && neighbour) log.goTo(neighbour.playId);
  });
  useCommand(
    'prediction.accept',
    () => {
      if (!play) return;
      void changePlays(() =>
        playCalls.tag({
          playId: play.playId,
          changes: predictedChanges(play),
          label: `accept the situation of play ${play.record.playNumber ?? ''}`,
        }),
      );
    },
    () => play !== null && predictedChanges(play).length > 0,
  );
}
