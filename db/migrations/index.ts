import { firstLibrary } from './0001-first-library.ts';
import type { Migration } from './migration.ts';

export const MIGRATIONS: readonly Migration[] = [firstLibrary];

export const CURRENT_VERSION = MIGRATIONS.length;
