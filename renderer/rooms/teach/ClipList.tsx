import {
  closestCenter,
  DndContext,
  type DragEndEvent,
  PointerSensor,
  useSensor,
  useSensors,
} from '@dnd-kit/core';
import { SortableContext, verticalListSortingStrategy } from '@dnd-kit/sortable';
import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { CutupDetailView, CutupItemView, PlayView } from '../../../electron/service/views.ts';
import { ClipLine } from './ClipLine.tsx';
import classes from './teach.module.css';
import type { Bench } from './use-bench.ts';

interface ClipListProps {
  readonly cutup: CutupDetailView;
  readonly playOf: (item: CutupItemView) => PlayView | null;
  readonly bench: Bench;
}

/** The clips in order: arrow keys walk, Alt with an arrow moves, the mouse drags. */
export function ClipList({ cutup, playOf, bench }: ClipListProps) {
  const list = useRef<HTMLUListElement>(null);
  // a click is no drag
  const sensors = useSensors(useSensor(PointerSensor, { activationConstraint: { distance: 6 } }));
  useEffect(() => {
    list.current?.children[bench.at]?.scrollIntoView({ block: 'nearest' });
  }, [bench.at]);

  if (cutup.list.length === 0) {
    return (
      <p className={classes.noClips}>
        This cut-up has no clips. In the Ask room, choose a number and add its plays to “{cutup.name}”.
      </p>
    );
  }

  const onKeyDown = (event: KeyboardEvent) => {
    // Alt with an arrow is a command of the registry
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const last = cutup.list.length - 1;
    if (event.key === 'ArrowDown') bench.choose(bench.at + 1);
    else if (event.key === 'ArrowUp') bench.choose(bench.at - 1);
    else if (event.key === 'End') bench.choose(last);
    else if (event.key === 'Enter') bench.choose(bench.at);
    else return;
    event.preventDefault();
  };
  const onDragEnd = ({ active, over }: DragEndEvent) => {
    const from = cutup.list.findIndex((item) => item.itemId === active.id);
    const to = cutup.list.findIndex((item) => item.itemId === over?.id);
    if (from >= 0 && to >= 0) void bench.move(from, to);
  };

  return (
    <DndContext sensors={sensors} collisionDetection={closestCenter} onDragEnd={onDragEnd}>
      <SortableContext items={cutup.list.map((item) => item.itemId)} strategy={verticalListSortingStrategy}>
        <ul
          ref={list}
          className={classes.clips}
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the clips are options that arrow keys walk through
          role="listbox"
          aria-label={`Clips of ${cutup.name}`}
          aria-activedescendant={`clip-${bench.at}`}
          tabIndex={0}
          data-keys="cutup-clips"
          data-print-flow
          onKeyDown={onKeyDown}
        >
          {cutup.list.map((item, index) => (
            <ClipLine
              key={item.itemId}
              item={item}
              index={index}
              play={playOf(item)}
              chosen={index === bench.at}
              onChoose={() => bench.choose(index)}
            />
          ))}
        </ul>
      </SortableContext>
    </DndContext>
  );
}
