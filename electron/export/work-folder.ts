import { randomBytes } from 'node:crypto';
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import checkDiskSpace from 'check-disk-space';
import { diskFull, fromFileError, ReelFailure } from './reel-failure.ts';

/** A folder beside the target, on the same drive, in which an export is made before it takes its name. */
export interface WorkFolder {
  readonly path: string;
  /** folder of the target */
  readonly beside: string;
}

/** Names of work folders begin with this and end with the number of the process that works in them. */
const WORK_PREFIX = '.tapebook-export-';

async function syncFolder(path: string): Promise<void> {
  // Windows can't open a folder for this, and keeps names safe by itself
  const folder = await open(path, 'r').catch(() => null);
  await folder?.sync().catch(() => {});
  await folder?.close();
}

/** Writes a file's bytes through to the drive. */
export async function syncFile(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

/**
 * Removes what exports left in a folder when they were cut off by a crash; one whose process still runs is at work.
 */
async function sweepLeftovers(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => [] as string[]);
  for (const name of names) {
    if (!name.startsWith(WORK_PREFIX)) continue;
    const path = join(folder, name);
    const owner = Number(/-p(\d+)$/.exec(name)?.[1] ?? Number.NaN);
    if (Number.isInteger(owner) && isRunning(owner)) continue;
    await rm(path, { recursive: true, force: true, maxRetries: 3 }).catch(() => {});
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Refuses an export for which the drive has too little room. A drive that won't tell is not in the way. */
async function checkRoom(folder: string, neededBytes: number): Promise<void> {
  const space = await checkDiskSpace(folder).catch(() => null);
  if (space && space.free < neededBytes) throw new ReelFailure(diskFull(folder, neededBytes, space.free));
}

/**
 * Runs `make` with a fresh work folder beside `target` and removes it afterwards, whatever happens. Throws ReelFailure
 * where the folder can't be written to or too little room is left.
 */
export async function withWorkFolder<T>(
  target: string,
  neededBytes: number,
  make: (work: WorkFolder) => Promise<T>,
): Promise<T> {
  const beside = dirname(resolve(target));
  const path = join(beside, `${WORK_PREFIX}${randomBytes(6).toString('hex')}-p${process.pid}`);
  try {
    const there = await stat(target).catch(() => null);
    if (there?.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
    await sweepLeftovers(beside);
    await mkdir(path);
  } catch (error) {
    throw new ReelFailure(fromFileError(error, target, beside));
  }
  try {
    await checkRoom(beside, neededBytes);
    return await make({ path, beside });
  } catch (error) {
    if (error instanceof ReelFailure) throw error;
    if ((error as NodeJS.ErrnoException).syscall) throw new ReelFailure(fromFileError(error, target, beside));
    throw error;
  } finally {
    await rm(path, { recursive: true, force: true, maxRetries: 3 });
  }
}

/** Gives a finished file its final name, durably; a file of that name from before is replaced in one step. */
export async function putInPlace(made: string, target: string): Promise<void> {
  await syncFile(made);
  await rename(made, target);
  await syncFolder(dirname(resolve(target)));
}

/** Gives a finished folder its final name; one of that name from before is moved aside first and then removed. */
export async function putFolderInPlace(made: string, target: string, work: WorkFolder): Promise<void> {
  const old = join(work.path, `old-${basename(target)}`);
  const hadOld = await rename(target, old).then(
    () => true,
    () => false,
  );
  try {
    await rename(made, target);
  } catch (error) {
    if (hadOld) await rename(old, target);
    throw error;
  }
  await syncFolder(dirname(resolve(target)));
}
