import { createHash } from 'node:crypto';
import {
  playsInWords,
  type Report,
  type ReportCell,
  type ReportTable,
} from '../../../football/report/report.ts';

/** A clip of the folder: which film file, and what stands over it. */
export interface BundleClip {
  readonly playId: string;
  /** path within the folder */
  readonly file: string;
  readonly label: string;
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

const safe = (text: string): string => text.replace(/[&<>"']/g, (c) => ESCAPES[c] ?? c);

const hash = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

const STYLE = `
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 1100px; padding: 20px; font: 15px/1.45 system-ui, sans-serif; color: #111; background: #fff; }
h1 { margin: 0 0 4px; font-size: 26px; } h2 { margin: 30px 0 2px; font-size: 19px; } caption { padding: 8px 0 3px; font-weight: 700; text-align: left; }
p { margin: 4px 0; } .note, small { color: #555; } small { display: block; font-size: 12px; white-space: nowrap; }
table { width: 100%; margin-top: 8px; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { padding: 4px 8px; border-bottom: 1px solid #ccc; text-align: right; vertical-align: top; }
th:first-child, td.word { text-align: left; } thead th { border-bottom: 2px solid #555; }
a { color: #0b4f82; } a:focus-visible, button:focus-visible { outline: 3px solid #b36b00; outline-offset: 1px; }
.scroll { overflow-x: auto; } nav ul { columns: 2; padding-left: 18px; }
video { display: block; width: 100%; max-height: 74vh; background: #000; } button { padding: 6px 14px; font: inherit; }
ol { padding-left: 28px; } [aria-current="true"] { font-weight: 700; } .bar { display: flex; gap: 8px; align-items: center; margin: 8px 0; }
@media print { body { max-width: none; padding: 0; font-size: 10pt; } a { color: inherit; text-decoration: none; } nav, .bar { display: none; } tr { break-inside: avoid; } thead { display: table-header-group; } .scroll { overflow: visible; } }
`;

/** Nothing is fetched from anywhere: only what stands in the page and the film beside it. */
function document(title: string, body: string, script: string | null): string {
  const policy = [
    "default-src 'none'",
    `style-src ${hash(STYLE)}`,
    ...(script === null ? [] : [`script-src ${hash(script)}`, "media-src 'self' file:"]),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width">
<title>${safe(title)}</title>
<style>${STYLE}</style>
</head>
<body>
${body}
${script === null ? '' : `<script>${script}</script>\n`}</body>
</html>
`;
}

/** Numbers of clips as `1-4.9`, so that a link to all plays stays short. */
function ranges(numbers: readonly number[]): string {
  const parts: [number, number][] = [];
  for (const n of numbers) {
    const last = parts.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else parts.push([n, n]);
  }
  return parts.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join('.');
}

/** The report as one page without a script; every number that has film is a link to the page of film. */
export function reportPage(report: Report, clips: readonly BundleClip[]): string {
  const numberOf = new Map(clips.map((clip, i) => [clip.playId, i + 1]));
  const link = (cell: ReportCell, title: string): string => {
    const shown = safe(cell.small ? `${cell.text} *` : cell.text);
    const film = (cell.playIds ?? []).flatMap((id) => numberOf.get(id) ?? []);
    if (film.length === 0) return shown;
    const address = `film.html#${ranges(film)}~${encodeURIComponent(title)}`;
    return `<a href="${safe(address)}" aria-label="${safe(`${title}: ${cell.text}, film of ${playsInWords(film.length)}`)}">${shown}</a>`;
  };
  const tableHtml = (table: ReportTable, section: string): string => {
    const rows = table.rows.map((row) => {
      const cells = row.map((cell, i) => {
        const title = [section, table.caption, row[0]?.text, table.columns[i]].filter(Boolean).join(', ');
        const detail = cell.detail === undefined ? '' : `<small>${safe(cell.detail)}</small>`;
        const inner = link(cell, title) + detail;
        return i === 0
          ? `<th scope="row">${inner}</th>`
          : `<td${cell.playIds === null ? ' class="word"' : ''}>${inner}</td>`;
      });
      return `<tr>${cells.join('')}</tr>`;
    });
    const caption = table.caption === null ? '' : `<caption>${safe(table.caption)}</caption>`;
    const heads = table.columns
      .map((c) => (c === '' ? '<td></td>' : `<th scope="col">${safe(c)}</th>`))
      .join('');
    return `<div class="scroll" tabindex="0" role="region" aria-label="${safe([section, table.caption].filter(Boolean).join(', '))}"><table>${caption}<thead><tr>${heads}</tr></thead><tbody>${rows.join('\n')}</tbody></table></div>`;
  };
  const sections = report.sections.map((s) => {
    const content =
      s.empty === null ? s.tables.map((t) => tableHtml(t, s.title)).join('\n') : `<p>${safe(s.empty)}</p>`;
    return `<section aria-labelledby="${safe(s.key)}"><h2 id="${safe(s.key)}">${safe(s.title)}</h2><p class="note">${safe(s.note)}</p>${content}</section>`;
  });
  const film =
    clips.length === 0
      ? 'This folder holds numbers only, no film.'
      : `Every underlined number opens its film. Film of ${playsInWords(clips.length)} of student athletes lies in this folder: pass it on with care.`;
  return document(
    report.title,
    `<main><h1>${safe(report.title)}</h1>
<p>${playsInWords(report.plays)} · ${safe(report.games.join(', ') || 'no games')} · template ${safe(report.template)} · made ${report.made}</p>
<ul>${report.cautions.map((c) => `<li>${safe(c)}</li>`).join('')}<li>${film}</li></ul>
<nav aria-label="Sections"><ul>${report.sections.map((s) => `<li><a href="#${safe(s.key)}">${safe(s.title)}</a></li>`).join('')}</ul></nav>
${sections.join('\n')}</main>`,
    null,
  );
}

const PLAYER = `
const clips = JSON.parse(document.getElementById('clips').textContent);
const video = document.querySelector('video'), list = document.querySelector('ol'), head = document.querySelector('h1'), said = document.querySelector('[role=status]');
let chosen = [], at = 0;
function show(next, play) {
  at = Math.max(0, Math.min(chosen.length - 1, next));
  const clip = chosen[at];
  if (!clip) { said.textContent = 'No film is asked for.'; return; }
  video.src = clip[0];
  said.textContent = 'Play ' + (at + 1) + ' of ' + chosen.length + ': ' + clip[1];
  list.querySelectorAll('button').forEach((b, i) => b.setAttribute('aria-current', i === at));
  if (play) video.play().catch(() => {});
}
function read() {
  const [numbers, title] = location.hash.slice(1).split('~');
  chosen = numbers.split('.').filter(Boolean).flatMap((part) => {
    const [from, to = from] = part.split('-').map(Number);
    return clips.slice(from - 1, to);
  });
  head.textContent = decodeURIComponent(title || 'Film');
  document.title = head.textContent;
  list.replaceChildren(...chosen.map((clip, i) => {
    const item = document.createElement('li'), button = document.createElement('button');
    button.textContent = clip[1];
    button.onclick = () => show(i, true);
    item.append(button);
    return item;
  }));
  show(0, true);
}
video.onended = () => { if (at + 1 < chosen.length) show(at + 1, true); };
document.getElementById('before').onclick = () => show(at - 1, true);
document.getElementById('next').onclick = () => show(at + 1, true);
addEventListener('hashchange', read);
addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  if (event.key === 'PageDown' || event.key === 'e') { event.preventDefault(); show(at + 1, true); }
  if (event.key === 'PageUp' || event.key === 'q') { event.preventDefault(); show(at - 1, true); }
});
read();
`;

/** The page that plays the clips that a link names, one after the other. */
export function filmPage(report: Report, clips: readonly BundleClip[]): string {
  // a closing tag inside the data must not end the element that holds it
  const data = JSON.stringify(clips.map((c) => [c.file, c.label])).replaceAll('<', '\\u003c');
  return document(
    `${report.title}: film`,
    `<main><p class="bar"><a href="index.html">Back to the report</a></p><h1>Film</h1>
<video controls muted playsinline aria-label="Film of the plays"></video>
<div class="bar"><button id="before">Play before (Page Up)</button><button id="next">Next play (Page Down)</button><span role="status"></span></div>
<ol></ol></main>
<script type="application/json" id="clips">${data}</script>`,
    PLAYER,
  );
}
