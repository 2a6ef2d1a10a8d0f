import { Select } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { questionCalls } from '../../../service/question-calls.ts';
import { readSetting, writeSetting } from '../../../state/settings.ts';
import { useStore } from '../../../state/store.ts';
import classes from '../ask.module.css';
import { askActions, askStore } from '../ask-store.ts';
import { draw } from './draw.ts';
import pictures from './pictures.module.css';

/** The answer as one picture at a time; every mark of it opens its plays. */
export default function PicturesView() {
  const { question } = useStore(askStore);
  const [name, setName] = useState(() => readSetting('ask.picture', 'coverage'));
  const { data: all = [] } = useQuery({ queryKey: ['pictures'], queryFn: questionCalls.pictures });
  const { data: view } = useQuery({
    queryKey: ['numbers', 'picture', question.where, name],
    queryFn: () => questionCalls.picture(question.where, name),
  });
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = place.current;
    if (!element || !view || view.marks.length === 0) return;
    const put = () =>
      element.replaceChildren(
        draw(view, Math.max(420, element.clientWidth), (mark) =>
          askActions.play([view.title, mark.panel, mark.band].filter(Boolean).join(' · '), mark.playIds),
        ),
      );
    put();
    const watch = new ResizeObserver(put);
    watch.observe(element);
    return () => watch.disconnect();
  }, [view]);
  return (
    <div className={classes.barAndBody} data-print-flow>
      <div className={classes.bar} data-noprint>
        <Select
          label="Picture"
          w={380}
          allowDeselect={false}
          data={all.map((each) => ({ value: each.name, label: each.title }))}
          value={name}
          onChange={(next) => {
            if (next === null) return;
            setName(next);
            writeSetting('ask.picture', next);
          }}
        />
      </div>
      <section className={pictures.page} aria-label="Picture" data-print-flow>
        {view && (
          <>
            <h2>{view.title}</h2>
            <p className={pictures.note}>
              {view.note} Lines across are 95 % intervals; hollow bars stand on few plays.
            </p>
            {view.needs.length > 0 ? (
              <p role="status">Nothing to draw yet: it needs {view.needs.join(' and ')} tagged.</p>
            ) : (
              <div ref={place} />
            )}
          </>
        )}
      </section>
    </div>
  );
}
