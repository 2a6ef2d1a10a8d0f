import { Button } from '@mantine/core';
import type { ReadRuleView } from '../../../../electron/service/views.ts';
import type { Question } from '../../../../football/question/ast.ts';
import { isOptionRoute } from '../../../../football/reads/grade.ts';
import { KeptText } from '../../../parts/KeptText.tsx';
import { showWhere } from '../../../parts/show-where.ts';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { type NewReadRule, playbookCalls } from '../../../service/playbook-calls.ts';
import { tellDone } from '../../../service/problems.ts';

interface RuleRowProps {
  readonly rule: ReadRuleView;
  readonly offers: {
    readonly concepts: readonly string[];
    readonly keys: readonly string[];
    readonly routes: readonly string[];
  };
}

/** One read rule; each part is kept when it is left. */
export function RuleRow({ rule, offers }: RuleRowProps) {
  const change = async (what: Partial<NewReadRule> & { removed?: boolean }) => {
    const changed = await gesture(() => playbookCalls.changeReadRule(rule.id, what));
    void cache.invalidateQueries({ queryKey: keys.vocabulary });
    if (changed && what.removed) tellDone('The rule is gone. Undo brings it back.');
  };
  const what = `the rule of ${rule.concept}`;
  return (
    <tr>
      <td>
        <KeptText
          label={`Concept of ${what}`}
          value={rule.concept}
          offers={offers.concepts}
          onKeep={(concept) => void change({ concept })}
        />
      </td>
      <td>
        <KeptText
          label={`Defender of ${what}`}
          value={rule.keyDefender ?? ''}
          placeholder="flat defender"
          mayBeEmpty
          onKeep={(keyDefender) => void change({ keyDefender: keyDefender || null })}
        />
      </td>
      <td>
        <KeptText
          label={`What he does, ${what}`}
          value={rule.whenKey ?? ''}
          offers={offers.keys}
          mayBeEmpty
          onKeep={(whenKey) => void change({ whenKey: whenKey || null })}
        />
      </td>
      <td>
        <KeptText
          label={`Where the ball goes, ${what}`}
          value={rule.goTo ?? ''}
          offers={offers.routes}
          mayBeEmpty
          onKeep={(goTo) => void change({ goTo: goTo || null })}
        />
        {isOptionRoute(rule) && <small>option route</small>}
      </td>
      <td>
        <KeptText
          label={`Note on ${what}`}
          value={rule.note ?? ''}
          mayBeEmpty
          onKeep={(note) => void change({ note: note || null })}
        />
      </td>
      <td style={{ whiteSpace: 'nowrap' }}>
        <Button
          aria-label={`Plays of ${what}`}
          onClick={() => void showWhere(`${rule.concept}, read key ${rule.whenKey ?? 'any'}`, playsOf(rule))}
        >
          Plays
        </Button>{' '}
        <Button aria-label={`Take ${what} away`} onClick={() => void change({ removed: true })}>
          Take away
        </Button>
      </td>
    </tr>
  );
}

/** The plays of the concept on which the key did what the rule is about. */
function playsOf(rule: ReadRuleView): Question {
  const concept: Question = { kind: 'rule', field: 'concept', operator: '=', value: rule.concept };
  if (!rule.whenKey) return concept;
  const key: Question = { kind: 'rule', field: 'readKey', operator: '=', value: rule.whenKey };
  return { kind: 'group', combinator: 'and', rules: [concept, key] };
}
