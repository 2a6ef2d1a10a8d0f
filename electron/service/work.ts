import { type AddFilms, addFilms } from './film/add-films.ts';
import { type ExportCutup, exportCutup } from './film/export-cutup.ts';
import { type MakeProxy, makeFilmProxy, PROXY_JOB } from './film/proxies.ts';
import type { Station } from './station.ts';

/** The kinds of long work that a station does. */
export function defineWork(station: Station): void {
  station.jobs.define<AddFilms>('add-films', (input, context) => addFilms(station, input, context));
  station.jobs.define<ExportCutup>('export-cutup', (input, context) => exportCutup(station, input, context));
  station.jobs.define<MakeProxy>(PROXY_JOB, (input, context) => makeFilmProxy(station, input, context));
}
