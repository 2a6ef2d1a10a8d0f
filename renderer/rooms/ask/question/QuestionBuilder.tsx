import { useMemo } from 'react';
import { type Classnames, QueryBuilder, type RuleGroupType, type Translations } from 'react-querybuilder';
import { FieldSet } from '../../../../football/question/fieldset.ts';
import { operatorsOf } from '../../../../football/question/kinds.ts';
import { STEPS, splitStep, stepKey } from '../../../../football/question/neighbour.ts';
import type { BuilderGroup } from '../../../../football/question/querybuilder.ts';
import { SAVED_FIELD } from '../../../../football/question/saved.ts';
import type { FieldDefinition, FieldGroup } from '../../../../football/vocabulary/fields.ts';
import { useQuestions } from '../../../service/queries.ts';
import { NamedSelect } from './NamedSelect.tsx';
import { operatorChoices } from './operator-words.ts';
import text from './question.module.css';
import { type BuilderContext, ValueEditor } from './ValueEditor.tsx';
import type { ValueWords } from './value-words.ts';

interface QuestionBuilderProps {
  readonly tree: BuilderGroup;
  readonly onChange: (tree: BuilderGroup) => void;
  readonly fields: readonly FieldDefinition[];
  readonly words: ValueWords;
  /** place of the condition that cannot be asked yet */
  readonly wrong: readonly number[] | null;
}

const GROUPS: readonly (readonly [FieldGroup, string])[] = [
  ['calls', 'Calls'],
  ['situation', 'Situation'],
  ['outcome', 'Outcome'],
  ['people', 'People'],
  ['game', 'Game'],
  ['notes', 'Notes'],
];

const WORDS: Partial<Translations> = {
  fields: { title: 'Field' },
  operators: { title: 'Comparison' },
  value: { title: 'Value' },
  combinators: { title: 'All of these, or any of them' },
  addRule: { label: '+ Condition', title: 'Add a condition' },
  addGroup: { label: '+ Group', title: 'Add a group of conditions' },
  removeRule: { label: '✕', title: 'Take this condition out' },
  removeGroup: { label: '✕', title: 'Take this group out' },
  notToggle: { label: 'not', title: 'Turn the group around: plays for which it does not hold' },
};

const css = (...names: (string | undefined)[]) => names.filter(Boolean).join(' ');

const CLASSES: Partial<Classnames> = {
  ruleGroup: css(text.group),
  header: css(text.groupHead),
  body: css(text.groupBody),
  rule: css(text.rule),
  fields: css(text.select),
  operators: css(text.select),
  combinators: css(text.select, text.combinator),
  notToggle: css(text.not),
  addRule: css(text.add),
  addGroup: css(text.add),
  removeRule: css(text.remove),
  removeGroup: css(text.remove),
};

const CONTROLS = {
  valueEditor: ValueEditor,
  fieldSelector: NamedSelect,
  operatorSelector: NamedSelect,
  combinatorSelector: NamedSelect,
};

const COMBINATORS = [
  { name: 'and', label: 'all of' },
  { name: 'or', label: 'any of' },
];

/** The question as conditions in groups, over the staff's own fields. */
export function QuestionBuilder({ tree, onChange, fields, words, wrong }: QuestionBuilderProps) {
  const { data: saved = [] } = useQuestions();
  const byKey = useMemo(() => {
    const set = FieldSet.of(fields);
    const around = STEPS.flatMap((step) => fields.flatMap((f) => set.get(stepKey(step, f.key)) ?? []));
    return new Map([...fields, ...around, SAVED_FIELD].map((field) => [field.key, field]));
  }, [fields]);
  const choices = useMemo(
    () =>
      GROUPS.map(([group, label]) => ({
        label,
        options: fields
          .filter((field) => field.group === group)
          .map((field) => ({ name: field.key, label: field.label, defaultOperator: firstOperator(field) })),
      }))
        .concat(
          STEPS.map((step) => ({
            label: step === 'previous' ? 'Play before, in the drive' : 'Play after, in the drive',
            options: [...byKey.values()]
              .filter((field) => splitStep(field.key).step === step)
              .map((field) => ({
                name: field.key,
                label: field.label,
                defaultOperator: firstOperator(field),
              })),
          })),
          [
            {
              label: 'Saved',
              options:
                saved.length > 0
                  ? [{ name: SAVED_FIELD.key, label: SAVED_FIELD.label, defaultOperator: '=' }]
                  : [],
            },
          ],
        )
        .filter((group) => group.options.length > 0),
    [fields, byKey, saved.length],
  );
  const context: BuilderContext = { words, fields: byKey, wrongAt: wrong?.join('.') ?? null };
  return (
    <div data-ask-builder>
      <QueryBuilder
        fields={choices}
        query={tree as RuleGroupType}
        onQueryChange={(next) => {
          if (!sameTree(next, tree)) onChange(next as BuilderGroup);
        }}
        getOperators={(name) =>
          operatorChoices(
            byKey.get(name)?.kind ?? 'text',
            byKey.has(name) ? operatorsOf(byKey.get(name)!) : undefined,
          )
        }
        getDefaultField="concept"
        getDefaultValue={() => ''}
        combinators={COMBINATORS}
        controlElements={CONTROLS}
        controlClassnames={CLASSES}
        translations={WORDS}
        context={context}
        showNotToggle
        listsAsArrays
        addRuleToNewGroups
        resetOnOperatorChange={false}
        suppressStandardClassnames
      />
    </div>
  );
}

function firstOperator(field: FieldDefinition): string {
  return operatorChoices(field.kind)[0]?.name ?? '=';
}

/** The builder answers a tree without ids with the same tree with ids, which is no change of the question. */
function sameTree(a: unknown, b: unknown): boolean {
  return JSON.stringify(a, withoutIds) === JSON.stringify(b, withoutIds);
}

function withoutIds(key: string, value: unknown): unknown {
  return key === 'id' || (key === 'not' && value === false) ? undefined : value;
}
