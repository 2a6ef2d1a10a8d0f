export { makeSampleLibrary } from './make-sample.ts';
