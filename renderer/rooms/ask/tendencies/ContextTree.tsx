import { useState } from 'react';
import type { ContextNode, TendencyView } from '../../../../electron/service/tendency-views.ts';
import { CountButton, percent } from './ShareRow.tsx';
import classes from './tendencies.module.css';

/** So many calls have a column of their own; the rest stand together in the row. */
const COLUMNS = 5;

/** The contexts as rows that open into longer ones, the calls as columns. */
export function ContextTree({ view }: { readonly view: TendencyView }) {
  const [open, setOpen] = useState<ReadonlySet<number>>(new Set([0]));
  const children = new Map<number, number[]>();
  for (const [i, node] of view.nodes.entries()) {
    children.set(node.parent, [...(children.get(node.parent) ?? []), i]);
  }
  const shown: number[] = [];
  const visit = (i: number) => {
    shown.push(i);
    if (open.has(i)) for (const child of children.get(i) ?? []) visit(child);
  };
  if (view.nodes.length > 0) visit(0);
  const toggle = (i: number) => {
    const next = new Set(open);
    if (!next.delete(i)) next.add(i);
    setOpen(next);
  };
  const names = view.callNames.slice(0, COLUMNS);
  return (
    <table className={classes.table}>
      <thead>
        <tr>
          <th scope="col">{view.levels.map(({ label }) => label).join(' › ') || 'Context'}</th>
          <th scope="col">Plays</th>
          {names.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {shown.map((i) => {
          const node = view.nodes[i]!;
          const hasMore = (children.get(i) ?? []).length > 0;
          const words = pathOf(view, i);
          return (
            <tr key={words}>
              <th scope="row" style={{ paddingLeft: `${8 + 18 * node.depth}px` }}>
                {hasMore ? (
                  <button
                    type="button"
                    className={classes.open}
                    aria-expanded={open.has(i)}
                    onClick={() => toggle(i)}
                  >
                    {open.has(i) ? '▾' : '▸'} {node.value || 'all'}
                  </button>
                ) : (
                  <span className={classes.leaf}>{node.value || 'all'}</span>
                )}
              </th>
              <td>{node.plays}</td>
              {names.map((name) => (
                <td key={name}>
                  <Share view={view} node={node} name={name} words={words} />
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Share(props: {
  readonly view: TendencyView;
  readonly node: ContextNode;
  readonly name: string;
  readonly words: string;
}) {
  const { view, node, name, words } = props;
  const call = node.calls.find((c) => c.call === name);
  if (!call) return <span className={classes.soft}>–</span>;
  const interval = `95 % interval ${percent(call.wilson[0])} to ${percent(call.wilson[1])}; expect ${percent(call.expected)}`;
  return (
    <span className={classes.share} title={interval}>
      <span className={classes.barOf} style={{ width: `${Math.round(100 * call.share)}%` }} aria-hidden />
      <strong>{percent(call.share)}</strong>{' '}
      <CountButton call={call} of={node.plays} playIds={view.playIds} title={`${name}, ${words}`} />
      <span className={classes.soft}>
        {' '}
        {percent(call.wilson[0])}–{percent(call.wilson[1])}
      </span>
    </span>
  );
}

function pathOf(view: TendencyView, index: number): string {
  const parts: string[] = [];
  for (let i = index; i > 0; i = view.nodes[i]!.parent) {
    const node = view.nodes[i]!;
    parts.unshift(`${view.levels[node.depth - 1]?.label ?? ''} ${node.value}`);
  }
  return parts.join(', ') || 'all plays';
}
