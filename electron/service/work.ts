import { type AddFilms, addFilms } from './film/add-films.ts';
import { type ExportCutup, exportCutup } from './film/export-cutup.ts';
import { makeFilmProxy } from './film/make-proxy.ts';
import { type MakeProxy, PROXY_JOB } from './film/proxies.ts';
import { type SplitWork, splitWork } from './film/split-film.ts';
import { type WriteReport, writeReport } from './film/write-report.ts';
import type { Station } from './station.ts';

/** The kinds of long work that a station does. */
export function defineWork(station: Station): void {
  station.jobs.define<AddFilms>('add-films', {
    work: (input, context) => addFilms(station, input, context),
    // plays are made and paired in the order in which film comes in
    alone: true,
  });
  station.jobs.define<ExportCutup>('export-cutup', {
    work: (input, context) => exportCutup(station, input, context),
  });
  station.jobs.define<WriteReport>('write-report', {
    work: (input, context) => writeReport(station, input, context),
  });
  station.jobs.define<SplitWork>('split-film', {
    work: (input, context) => splitWork(station, input, context),
  });
  station.jobs.define<MakeProxy>(PROXY_JOB, {
    work: (input, context) => makeFilmProxy(station, input, context),
    background: (input) => !input.awaited,
  });
}
