import { Autocomplete, Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ReadRuleView, VocabularyView } from '../../../../electron/service/views.ts';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { playbookCalls } from '../../../service/playbook-calls.ts';
import page from '../playbook.module.css';
import { RuleRow } from './RuleRow.tsx';

/** What a corner shows: a rule for one of these is an option route. Older playbooks lack the words. */
const LEVERAGE = ['pressed', 'off inside', 'off outside'];

/** Per concept: what the defender who is read does, and where the ball should go; or what a corner shows, and the route. */
export function ReadRules({ vocabulary }: { readonly vocabulary: VocabularyView }) {
  const [sought, setSought] = useState('');
  const namesOf = (field: string) =>
    vocabulary.terms.filter((term) => term.field === field).map((term) => term.name);
  const offers = {
    concepts: namesOf('concept'),
    keys: [...new Set([...namesOf('readKey'), ...LEVERAGE])],
    routes: namesOf('route'),
  };
  const shown = [...vocabulary.readRules]
    .filter((rule) => rule.concept.toLowerCase().includes(sought.trim().toLowerCase()))
    .sort((a, b) => a.concept.localeCompare(b.concept, 'en', { numeric: true }));
  return (
    <div className={page.page}>
      <div className={page.head}>
        <TextInput
          data-playbook-find
          label="Find"
          placeholder="concept"
          w={170}
          value={sought}
          onChange={(event) => setSought(event.currentTarget.value)}
        />
        <span className={page.grow} />
        <AddRule concepts={offers.concepts} />
      </div>
      {shown.length === 0 ? (
        <p className={page.none}>
          {vocabulary.readRules.length === 0
            ? 'No read rule yet. A rule says, for a concept: when this defender does that, the ball goes there; or, for an option route, when the corner is pressed, off inside or off outside, it is this route.'
            : 'No rule of that concept.'}
        </p>
      ) : (
        <div className={page.scroll}>
          <table className={page.table}>
            <thead>
              <tr>
                <th scope="col">Concept</th>
                <th scope="col">Defender who is read</th>
                <th scope="col">when he</th>
                <th scope="col">the ball goes to</th>
                <th scope="col">Note</th>
                <th scope="col">Film</th>
              </tr>
            </thead>
            <tbody>
              {shown.map((rule) => (
                <RuleRow key={rule.id} rule={rule} offers={offers} />
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}

function AddRule({ concepts }: { readonly concepts: readonly string[] }) {
  const [concept, setConcept] = useState('');
  const add = async () => {
    if (concept.trim() === '') return;
    const rule: Omit<ReadRuleView, 'id'> = {
      concept: concept.trim(),
      keyDefender: null,
      whenKey: null,
      goTo: null,
      note: null,
    };
    if (!(await gesture(() => playbookCalls.addReadRule(rule)))) return;
    setConcept('');
    void cache.invalidateQueries({ queryKey: keys.vocabulary });
  };
  return (
    <form
      style={{ display: 'flex', alignItems: 'end', gap: 8 }}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <Autocomplete
        data-playbook-add
        size="xs"
        label="New rule for the concept"
        w={220}
        data={[...concepts]}
        value={concept}
        onChange={setConcept}
      />
      <Button type="submit" variant="filled" disabled={concept.trim() === ''}>
        Add
      </Button>
    </form>
  );
}
