import { v7 as uuidv7 } from 'uuid';
import { situationsOf } from '../../../football/report/situations.ts';
import {
  BUILT_IN_TEMPLATES,
  type ReportKind,
  type ReportTemplate,
} from '../../../football/report/template.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import { metricsOrProblem, readQuestion } from './answers.ts';

/** A template is one coupled value of a setting, so that undo, merge and rebuild treat it as they treat every setting. */
const PREFIX = 'report-template/';

export interface TemplateView extends ReportTemplate {
  /** changed from, or copied beside, what the program brings */
  readonly own: boolean;
  readonly builtIn: boolean;
}

export function templates(station: Station): TemplateView[] {
  const rows = station.library.db
    .prepare("SELECT id, value FROM settings WHERE removed = 0 AND id LIKE ? || '%' ORDER BY id")
    .all(PREFIX) as { id: string; value: string | null }[];
  const own = new Map(
    rows.flatMap(({ value }) => {
      const template = value ? (JSON.parse(value) as ReportTemplate | null) : null;
      return template ? [[template.id, template] as const] : [];
    }),
  );
  const builtIn = BUILT_IN_TEMPLATES.map((t) => ({
    ...(own.get(t.id) ?? t),
    own: own.has(t.id),
    builtIn: true,
  }));
  const ids = new Set(BUILT_IN_TEMPLATES.map((t) => t.id));
  const copies = [...own.values()]
    .filter((t) => !ids.has(t.id))
    .map((t) => ({ ...t, own: true, builtIn: false }));
  return [...builtIn, ...copies];
}

/** The template of that id or name; without one the built-in of the kind. @throws ProblemError `template-unknown` */
export function templateOrProblem(station: Station, kind: ReportKind, wanted: string | null): TemplateView {
  const all = templates(station).filter((t) => t.kind === kind);
  const found =
    wanted === null
      ? all[0]
      : all.find((t) => t.id === wanted || t.name.toLowerCase() === wanted.toLowerCase());
  if (found) return found;
  throw new ProblemError({
    code: 'template-unknown',
    message: `There is no template ${wanted} for this kind of report.`,
    kept: 'Nothing was made.',
    next: `It can be made from ${all.map((t) => t.name).join(', ')}.`,
  });
}

/** Keeps a template as changed; a new id makes a copy. @throws ProblemError why a part of it does not fit */
export function saveTemplate(station: Station, template: ReportTemplate): TemplateView[] {
  check(station, template);
  const { id, name, kind, smallSample, sections } = template;
  station.library.journal.commit({ label: `change report template ${name.trim()}` }, [
    { entity: 'setting', id: PREFIX + id, field: 'removed', value: 0 },
    {
      entity: 'setting',
      id: PREFIX + id,
      field: 'value',
      value: JSON.stringify({ id, name: name.trim(), kind, smallSample, sections }),
    },
  ]);
  return templates(station);
}

export function copyTemplate(station: Station, id: string, name: string): TemplateView[] {
  const from = templates(station).find((t) => t.id === id);
  if (!from) throw unknown();
  return saveTemplate(station, { ...from, id: uuidv7(), name });
}

/** Takes a built-in template back to what the program brings, and removes a copy; undo brings either back. */
export function resetTemplate(station: Station, id: string): TemplateView[] {
  const template = templates(station).find((t) => t.id === id);
  if (!template) throw unknown();
  if (template.own) {
    station.library.journal.commit({ label: `reset report template ${template.name}` }, [
      { entity: 'setting', id: PREFIX + id, field: 'removed', value: 1 },
    ]);
  }
  return templates(station);
}

function check(station: Station, template: ReportTemplate): void {
  if (template.name.trim() === '') throw unfit('A template needs a name.', 'Type one.');
  const { fields } = station.vocabulary();
  for (const { where, rows, cols, metrics, title } of template.sections) {
    if (where.trim() !== '') readQuestion(station, where);
    if (!situationsOf(rows) && !fields.get(rows))
      throw unfit(`${title}: there is no field ${rows}.`, 'Choose another.');
    if (cols !== null && !fields.get(cols))
      throw unfit(`${title}: there is no field ${cols}.`, 'Choose another.');
    metricsOrProblem(metrics);
  }
}

function unfit(message: string, next: string): ProblemError {
  return new ProblemError({ code: 'template-unfit', message, kept: 'The template was not changed.', next });
}

function unknown(): ProblemError {
  return new ProblemError({
    code: 'template-unknown',
    message: 'This template is not in the library any more.',
    kept: 'Nothing was changed.',
    next: 'Undo brings it back.',
  });
}
