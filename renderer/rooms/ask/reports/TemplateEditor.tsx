import { Button, Checkbox, NumberInput, Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import { SITUATION_SETS } from '../../../../football/report/situations.ts';
import type { ReportTemplate, TemplateSection } from '../../../../football/report/template.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { cache } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { reportCalls } from '../../../service/report-calls.ts';
import classes from './reports.module.css';

interface TemplateEditorProps {
  readonly template: ReportTemplate & { readonly own: boolean; readonly builtIn: boolean };
  readonly fields: readonly FieldDefinition[];
  readonly onDone: (templateId: string | null) => void;
}

/** What the report asks: its sections, their questions, fields, order and lengths. Nothing is kept before Save. */
export function TemplateEditor({ template, fields, onDone }: TemplateEditorProps) {
  const [draft, setDraft] = useState<ReportTemplate>(template);
  const put = (at: number, change: Partial<TemplateSection>) =>
    setDraft({ ...draft, sections: draft.sections.map((s, i) => (i === at ? { ...s, ...change } : s)) });
  const move = (at: number, by: number) => {
    const sections = [...draft.sections];
    const [section] = sections.splice(at, 1);
    if (section) sections.splice(at + by, 0, section);
    setDraft({ ...draft, sections });
  };
  const done = async (send: () => Promise<readonly { id: string }[]>, newest: boolean) => {
    const all = await gesture(send);
    if (!all) return;
    void cache.invalidateQueries({ queryKey: ['numbers'] });
    onDone(newest ? (all.at(-1)?.id ?? null) : draft.id);
  };
  const termFields = fields.map((f) => ({ value: f.key, label: f.label }));
  const rowChoices = [
    ...Object.entries(SITUATION_SETS).map(([key, set]) => ({ value: `set:${key}`, label: set.label })),
    ...termFields,
  ];
  return (
    <div className={classes.form}>
      <div className={classes.bar}>
        <TextInput
          label="Name"
          value={draft.name}
          onChange={(e) => setDraft({ ...draft, name: e.currentTarget.value })}
        />
        <NumberInput
          label="Mark rates on fewer plays than"
          min={1}
          max={1000}
          allowDecimal={false}
          value={draft.smallSample}
          onChange={(n) => setDraft({ ...draft, smallSample: Number(n) || 1 })}
        />
      </div>
      {draft.sections.map((section, at) => (
        <fieldset key={section.key} className={classes.section} aria-label={section.title}>
          <Checkbox
            aria-label={`Show ${section.title}`}
            checked={section.on}
            onChange={(e) => put(at, { on: e.currentTarget.checked })}
          />
          <TextInput
            label="Section"
            value={section.title}
            onChange={(e) => put(at, { title: e.currentTarget.value })}
          />
          <TextInput
            label="Only plays where"
            placeholder="every play"
            value={section.where}
            onChange={(e) => put(at, { where: e.currentTarget.value })}
          />
          <Select
            label="Rows"
            data={rowChoices}
            value={section.rows}
            searchable
            allowDeselect={false}
            onChange={(rows) => rows && put(at, { rows })}
          />
          {section.cols === null ? (
            <span />
          ) : (
            <Select
              label="Counts"
              data={termFields}
              value={section.cols}
              searchable
              allowDeselect={false}
              onChange={(cols) => cols && put(at, { cols })}
            />
          )}
          <NumberInput
            label="At most"
            min={1}
            max={500}
            allowDecimal={false}
            value={section.length}
            onChange={(n) => put(at, { length: Number(n) || 1 })}
          />
          <div className={classes.moves}>
            <Button aria-label={`Move ${section.title} up`} disabled={at === 0} onClick={() => move(at, -1)}>
              ↑
            </Button>
            <Button
              aria-label={`Move ${section.title} down`}
              disabled={at === draft.sections.length - 1}
              onClick={() => move(at, 1)}
            >
              ↓
            </Button>
          </div>
        </fieldset>
      ))}
      <div className={classes.buttons}>
        <Button
          disabled={!template.own}
          onClick={() => void done(() => reportCalls.reset(template.id), false)}
        >
          {template.builtIn ? 'Back to the built-in' : 'Remove this copy'}
        </Button>
        <Button
          onClick={() => void done(() => reportCalls.copy(template.id, `${template.name}, copy`), true)}
        >
          Make a copy
        </Button>
        <Button variant="filled" onClick={() => void done(() => reportCalls.save(draft), false)}>
          Save
        </Button>
      </div>
    </div>
  );
}
