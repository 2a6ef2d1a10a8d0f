import { Command, CommanderError } from 'commander';
import { ProblemError } from '../../../football/result.ts';
import { sayProblem } from '../say.ts';
import { askCommands } from './ask.ts';
import { filmCommands } from './film.ts';
import { gameCommands } from './game.ts';
import { libraryCommands } from './library.ts';
import { type Exit, makeOutput } from './output.ts';
import { playCommands } from './plays.ts';
import { reportCommands } from './report.ts';
import { studyCommands } from './study.ts';

/** The command line: the same functions as the routes, with words around them. */
export function makeProgram(done: (exit: Exit) => void): Command {
  const program = new Command('tapebook')
    .description('Tapebook from the command line. Results go to standard output, messages to standard error.')
    .exitOverride()
    .configureOutput({ writeErr: (text) => process.stderr.write(text) });
  for (const add of [
    libraryCommands,
    filmCommands,
    playCommands,
    askCommands,
    studyCommands,
    gameCommands,
    reportCommands,
  ])
    add(program, done);
  return program;
}

/** @returns 0 done, 1 done in part, 2 not done */
export async function run(args: readonly string[]): Promise<Exit> {
  let exit: Exit = 0;
  const program = makeProgram((e) => {
    exit = e;
  });
  try {
    await program.parseAsync(args, { from: 'user' });
    return exit;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    const message =
      error instanceof ProblemError
        ? sayProblem(error.problem)
        : `This did not work: ${(error as Error).message}`;
    makeOutput(false).say(message.replaceAll('\n', ' '));
    return 2;
  }
}
