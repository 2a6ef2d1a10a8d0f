import { TextInput } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import { readSetting, writeSetting } from '../../../state/settings.ts';
import { termRows, termsFound } from '../term-tree.ts';
import { AddTerm } from './AddTerm.tsx';
import { FieldList } from './FieldList.tsx';
import { TermEditor } from './TermEditor.tsx';
import { TermTable } from './TermTable.tsx';
import classes from './terms.module.css';

/** Fields on the left, the families of the chosen one in the middle, the chosen term on the right. */
export function Terms({ vocabulary }: { readonly vocabulary: VocabularyView }) {
  const [fieldKey, setFieldKey] = useState(() => readSetting('playbook.field', 'coverage'));
  const [termId, setTermId] = useState<string | null>(null);
  const [sought, setSought] = useState('');
  const field = vocabulary.fields.find((each) => each.key === fieldKey) ?? vocabulary.fields[0]!;
  const terms = useMemo(
    () => vocabulary.terms.filter((term) => term.field === field.key),
    [vocabulary.terms, field.key],
  );
  const rows = useMemo(() => termsFound(termRows(terms), sought), [terms, sought]);
  const term = terms.find((each) => each.id === termId) ?? null;

  const chooseField = (key: string) => {
    setFieldKey(key);
    setTermId(null);
    setSought('');
    writeSetting('playbook.field', key);
  };

  return (
    <div className={classes.terms}>
      <FieldList vocabulary={vocabulary} chosen={field.key} onChoose={chooseField} />
      <div className={classes.middle}>
        <div className={classes.head}>
          <div className={classes.headWords}>
            <h2>{field.label}</h2>
            <p>
              {field.help} <code>{field.key}</code>
            </p>
          </div>
          {field.kind === 'term' && (
            <TextInput
              data-playbook-find
              w={180}
              label="Find"
              value={sought}
              onChange={(event) => setSought(event.currentTarget.value)}
            />
          )}
        </div>
        {field.kind === 'term' ? (
          <>
            {field.closed ? (
              <p className={classes.closed}>
                These terms belong to the rules of the game and stay as they are.
              </p>
            ) : (
              <AddTerm field={field} terms={terms} under={term} onAdded={setTermId} />
            )}
            <TermTable field={field} rows={rows} chosen={termId} onChoose={setTermId} />
          </>
        ) : (
          <p className={classes.closed}>{KIND_WORDS[field.kind]}</p>
        )}
      </div>
      {term && !field.closed && (
        <TermEditor
          key={term.id}
          term={term}
          terms={terms}
          onGone={() => setTermId(null)}
          onRenamed={setTermId}
        />
      )}
    </div>
  );
}

const KIND_WORDS = {
  term: '',
  number: 'A number: it has no terms.',
  clock: 'A time on the game clock, written m:ss.',
  spot: 'A spot on the field: -35 is our own 35, +20 their 20.',
  text: 'Free text: it has no terms.',
  player: 'A player of either roster, or a bare number.',
  flag: 'Yes or no; untagged is neither.',
} as const;
