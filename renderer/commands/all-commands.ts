import type { CommandDefinition, CommandTable } from './command.ts';
import { refuseConflicts } from './conflicts.ts';
import { FILM_COMMANDS } from './film-commands.ts';
import { LOG_COMMANDS } from './log-commands.ts';
import { STATION_COMMANDS } from './station-commands.ts';

/** Every command of the station. A room adds its table here; a stroke that would mean two things is refused at once. */
const TABLES = { ...STATION_COMMANDS, ...FILM_COMMANDS, ...LOG_COMMANDS };

export type CommandName = keyof typeof TABLES;

export const ALL_COMMANDS: CommandTable = refuseConflicts(TABLES);

export function commandNamed(name: string): CommandDefinition | undefined {
  return ALL_COMMANDS[name];
}
