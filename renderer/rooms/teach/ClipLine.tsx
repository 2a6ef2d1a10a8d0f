import { useSortable } from '@dnd-kit/sortable';
import type { CutupItemView, PlayView } from '../../../electron/service/views.ts';
import { playInALine } from '../../parts/play-words.ts';
import classes from './teach.module.css';

interface ClipLineProps {
  readonly item: CutupItemView;
  readonly index: number;
  readonly play: PlayView | null;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}

/** One clip of the cut-up, as a line that can be dragged. */
export function ClipLine({ item, index, play, chosen, onChoose }: ClipLineProps) {
  const { setNodeRef, listeners, transform, transition, isDragging } = useSortable({ id: item.itemId });
  const marks = [
    Object.keys(item.trims).length > 0 ? 'trimmed' : '',
    item.angles ? item.angles.join(', ') : '',
    play && play.clips.length === 0 ? 'no film' : '',
  ].filter(Boolean);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list around it hears the keys
    // biome-ignore lint/a11y/useFocusableInteractive: the list has the focus and names the active clip
    <li
      ref={setNodeRef}
      id={`clip-${index}`}
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: an option of the list box around it
      role="option"
      aria-selected={chosen}
      className={classes.clip}
      data-dragging={isDragging || undefined}
      style={{
        transform: transform ? `translateY(${transform.y}px)` : undefined,
        transition,
      }}
      onClick={onChoose}
      {...listeners}
    >
      <span className={classes.place}>{index + 1}</span>
      <span className={classes.words}>
        {play ? playInALine(play.record) : 'this play was removed'}
        {item.note && <em className={classes.note}>{item.note}</em>}
      </span>
      <span className={classes.marks}>{marks.join(' · ')}</span>
      <span className={classes.play}>{play?.record.playNumber ? `#${play.record.playNumber}` : ''}</span>
    </li>
  );
}
