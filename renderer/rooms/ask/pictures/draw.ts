/** Draws a picture as SVG. Every mark is a button of its own: it says its value and count, and opens its plays. */

import * as Plot from '@observablehq/plot';
import type { PictureMark, PictureView } from '../../../../electron/service/picture-views.ts';

export function markInWords(view: PictureView, mark: PictureMark): string {
  const value = `${mark.value.toFixed(view.unit === '%' ? 1 : 0)} ${view.unit}`;
  const out = view.unit === '%' ? ` of ${mark.base}` : '';
  const interval = mark.interval
    ? `, 95 % interval ${mark.interval[0].toFixed(1)} to ${mark.interval[1].toFixed(1)}`
    : '';
  const where = [mark.panel, mark.band].filter(Boolean).join(', ');
  return `${where}: ${value}${out}${interval}${mark.small ? ', few plays' : ''}`;
}

export function draw(
  view: PictureView,
  width: number,
  play: (mark: PictureMark) => void,
): SVGSVGElement | HTMLElement {
  const bands = [...new Set(view.marks.map((mark) => mark.band))];
  const panels = [...new Set(view.marks.map((mark) => mark.panel))];
  const marks = [...view.marks];
  const has = panels.length > 1;
  const fy = has ? { fy: 'panel' as const } : {};
  const rows = has ? marks.length : bands.length;
  const bars = Plot.barX(marks, {
    y: 'band',
    ...fy,
    x: 'value',
    fill: (mark: PictureMark) => (mark.small ? 'none' : 'var(--guess)'),
    stroke: 'var(--guess)',
    insetTop: 2,
    insetBottom: 2,
    ariaLabel: (mark: PictureMark) => markInWords(view, mark),
    render: (index, scales, values, dimensions, context, next) => {
      const group = next!(index, scales, values, dimensions, context)!;
      const rects = group.querySelectorAll<SVGElement>('rect');
      for (const [at, i] of [...index].entries()) makeButton(rects[at], view, marks[i]!, play);
      return group;
    },
  });
  return Plot.plot({
    width,
    height: Math.max(
      120,
      Math.min(1_600, bands.length * Math.max(1, panels.length) * 22 + 70, rows * 30 + 90),
    ),
    marginLeft: 150,
    marginRight: has ? 110 : 50,
    style: { background: 'transparent', color: 'var(--text)', fontSize: '13px', fontFamily: 'var(--font)' },
    x: { label: view.unit, grid: true, ...(view.unit === '%' ? { domain: [0, 100] } : {}) },
    y: { label: view.bandLabel, domain: bands },
    ...(has ? { fy: { label: view.panelLabel, domain: panels } } : {}),
    marks: [
      bars,
      Plot.ruleY(
        marks.filter((mark) => mark.interval),
        {
          y: 'band',
          ...fy,
          x1: (mark: PictureMark) => mark.interval![0],
          x2: (mark: PictureMark) => mark.interval![1],
          stroke: 'var(--text)',
          strokeWidth: 1.5,
          pointerEvents: 'none',
        },
      ),
      Plot.ruleX([0]),
    ],
  });
}

function makeButton(
  element: SVGElement | undefined,
  view: PictureView,
  mark: PictureMark,
  play: (mark: PictureMark) => void,
): void {
  if (!element) return;
  element.setAttribute('role', 'button');
  element.setAttribute('tabindex', '0');
  element.setAttribute('aria-label', markInWords(view, mark));
  element.setAttribute('data-plays', String(mark.playIds.length));
  // a hollow bar is hit inside, too
  element.style.pointerEvents = 'all';
  element.style.cursor = 'pointer';
  element.addEventListener('click', () => play(mark));
  element.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    event.stopPropagation();
    play(mark);
  });
}
