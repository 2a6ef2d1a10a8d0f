/**
 * The worker that finds shots and plays, run from the sources: the build puts split-work.ts, bundled, in this file's
 * place. A worker's file is loaded as it stands, so that TypeScript has to be taught first.
 */
import { register } from 'tsx/esm/api';

register();
await import('./split-work.ts');
