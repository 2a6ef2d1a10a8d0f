import type { ReportKind, ReportTemplate } from '../../football/report/template.ts';
import { answer, api } from './api.ts';

/** What a report is made on. */
export interface ReportAsked {
  readonly kind: ReportKind;
  readonly about: string | null;
  readonly template: string | null;
}

/** Reports and the templates they are made from. */
export const reportCalls = {
  teams: () => answer(api.report.teams.$get()),
  make: (asked: ReportAsked) => answer(api.report.$post({ json: asked })),
  cutups: (asked: ReportAsked) => answer(api.report.cutups.$post({ json: asked })),
  write: (asked: ReportAsked, to: string, film: boolean) =>
    answer(api.report.write.$post({ json: { ...asked, to, film } })),
  templates: () => answer(api.report.templates.$get()),
  save: ({ sections, ...template }: ReportTemplate) =>
    answer(
      api.report.templates.$post({
        json: { ...template, sections: sections.map((s) => ({ ...s, metrics: [...s.metrics] })) },
      }),
    ),
  copy: (id: string, name: string) =>
    answer(api.report.templates[':id'].copy.$post({ param: { id }, json: { name } })),
  reset: (id: string) => answer(api.report.templates[':id'].reset.$post({ param: { id } })),
};
