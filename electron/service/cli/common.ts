import { resolve } from 'node:path';
import type { Command } from 'commander';
import { openLibrary } from '../../../db/library.ts';
import { ProblemError } from '../../../football/result.ts';
import { openStation, Station, whoIsThere } from '../station.ts';
import { defineWork } from '../work.ts';
import { type Exit, makeOutput, type Output } from './output.ts';

export interface CommonOptions {
  readonly library?: string;
  readonly json?: boolean;
}

export type Done = (exit: Exit) => void;

/** Adds the options that every command has. */
export function common(command: Command): Command {
  return command
    .option('--library <file>', 'the library file')
    .option('--json', 'write the result as JSON to standard output');
}

export function libraryPath(options: CommonOptions): string {
  if (options.library) return resolve(options.library);
  throw new ProblemError({
    code: 'library-unnamed',
    message: 'No library was named.',
    next: 'Add --library <file>.',
  });
}

type Work = (station: Station, output: Output) => Promise<Exit> | Exit;

/** Runs a command that changes the library; refused while another Tapebook has it open. */
export async function withStation(options: CommonOptions, done: Done, work: Work): Promise<void> {
  const station = openStation(libraryPath(options));
  await runAndClose(station, options, done, work);
}

/** Runs a command that only looks; works beside a window that has the library open. */
export async function looking(options: CommonOptions, done: Done, work: Work): Promise<void> {
  await runAndClose(openToLook(libraryPath(options)), options, done, work);
}

function openToLook(path: string): Station {
  try {
    return openStation(path);
  } catch (error) {
    if (!(error instanceof ProblemError) || error.problem.code !== 'library-held') throw error;
    return new Station(openLibrary(path, { readOnly: true }), whoIsThere());
  }
}

async function runAndClose(station: Station, options: CommonOptions, done: Done, work: Work): Promise<void> {
  defineWork(station);
  try {
    done(await work(station, makeOutput(options.json ?? false)));
  } finally {
    await station.close();
  }
}

export function wholeNumber(what: string): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (Number.isInteger(number)) return number;
    throw new ProblemError({
      code: 'option-unfit',
      message: `${what} must be a whole number, not ${text}.`,
      next: 'Type it again.',
    });
  };
}

export function list(text: string): string[] {
  return text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}
