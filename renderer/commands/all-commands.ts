import { ASK_COMMANDS } from './ask-commands.ts';
import type { CommandDefinition, CommandTable } from './command.ts';
import { refuseConflicts } from './conflicts.ts';
import { FILM_COMMANDS } from './film-commands.ts';
import { FILM_ROOM_COMMANDS } from './film-room-commands.ts';
import { LOG_COMMANDS } from './log-commands.ts';
import { PLAYBOOK_COMMANDS } from './playbook-commands.ts';
import { STATION_COMMANDS } from './station-commands.ts';
import { TEACH_COMMANDS } from './teach-commands.ts';

/** Every command of the station. A room adds its table here; a stroke that would mean two things is refused at once. */
const TABLES = {
  ...STATION_COMMANDS,
  ...FILM_COMMANDS,
  ...LOG_COMMANDS,
  ...FILM_ROOM_COMMANDS,
  ...ASK_COMMANDS,
  ...TEACH_COMMANDS,
  ...PLAYBOOK_COMMANDS,
};

export type CommandName = keyof typeof TABLES;

export const ALL_COMMANDS: CommandTable = refuseConflicts(TABLES);

export function commandNamed(name: string): CommandDefinition | undefined {
  return ALL_COMMANDS[name];
}
