import { firstLibrary } from './0001-first-library.ts';
import { angleLock } from './0002-angle-lock.ts';
import type { Migration } from './migration.ts';

export const MIGRATIONS: readonly Migration[] = [firstLibrary, angleLock];

export const CURRENT_VERSION = MIGRATIONS.length;
