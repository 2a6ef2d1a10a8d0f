import { Button, Select } from '@mantine/core';
import type { TermView } from '../../../../electron/service/views.ts';
import { KeptText } from '../../../parts/KeptText.tsx';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { playbookCalls, type TermChange } from '../../../service/playbook-calls.ts';
import { tellDone } from '../../../service/problems.ts';
import { familyPath, possibleFamilies, splitAliases } from '../term-tree.ts';
import classes from './terms.module.css';

interface TermEditorProps {
  readonly term: TermView;
  readonly terms: readonly TermView[];
  readonly onGone: () => void;
  readonly onRenamed: (termId: string) => void;
}

/** The chosen term: name, family, other spellings; each is kept when it is left. */
export function TermEditor({ term, terms, onGone, onRenamed }: TermEditorProps) {
  const change = async (what: TermChange) => {
    const changed = await gesture(() => playbookCalls.changeTerm(term.id, what));
    await cache.invalidateQueries({ queryKey: keys.vocabulary });
    if (!changed) return;
    if (what.removed) {
      tellDone(`${term.name} is hidden. Undo brings it back.`);
      onGone();
    } else if (changed.id !== term.id) onRenamed(changed.id);
  };
  const family = terms.find((each) => each.id === term.parentId) ?? null;
  return (
    <aside className={classes.editor} aria-label={`Term ${term.name}`}>
      <h3>{familyPath(terms, term)}</h3>
      <span className="eyebrow">Name</span>
      <KeptText label="Name" value={term.name} onKeep={(name) => void change({ name })} />
      <p className={classes.hint}>A new name changes it on every play that has it.</p>
      <Select
        label="Family"
        description="A question about the family finds its members."
        searchable
        clearable
        placeholder="none"
        data={possibleFamilies(terms, term.id).map((each) => ({
          value: each.name,
          label: familyPath(terms, each),
        }))}
        value={family?.name ?? null}
        onChange={(parent) => void change({ parent })}
      />
      <span className="eyebrow">Also typed as</span>
      <KeptText
        label="Other spellings, with commas between"
        value={term.aliases.join(', ')}
        placeholder="c3, three"
        mayBeEmpty
        onKeep={(text) => void change({ aliases: splitAliases(text) })}
      />
      <p className={classes.hint}>Shorter spellings for the log line and for sheets, with commas between.</p>
      <div>
        <Button
          disabled={term.uses > 0}
          title={term.uses > 0 ? `${term.uses} plays are tagged with it` : undefined}
          onClick={() => void change({ removed: true })}
        >
          Hide this term
        </Button>
      </div>
      {term.uses > 0 && (
        <p className={classes.hint}>
          It can be hidden once no play has it: {term.uses === 1 ? '1 play does' : `${term.uses} plays do`}.
        </p>
      )}
    </aside>
  );
}
