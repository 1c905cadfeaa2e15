import { escapeHtml } from './escape.ts';
import type { Size } from './svg.ts';

/** One cell: text is escaped; `kind` becomes the class, `name` the words before it on narrow screens. */
export interface Cell {
  text: string;
  kind?: string;
  name?: string;
}

/** A table of escaped text; the first cell of each row is its heading. */
export function table(heads: Cell[], rows: Cell[][], options: { class?: string; id?: string } = {}): string {
  const id = options.id === undefined ? '' : ` id="${options.id}"`;
  const kind = options.class === undefined ? '' : ` class="${options.class}"`;
  const head = heads.map((cell) => tag('th', cell, ' scope="col"')).join('');
  const body = rows
    .map(
      ([first, ...rest]) =>
        `<tr>${tag('th', first, ' scope="row"')}${rest.map((cell) => tag('td', cell, '')).join('')}</tr>`,
    )
    .join('\n');
  return `<table${id}${kind}><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table>`;
}

function tag(name: string, cell: Cell, more: string): string {
  const kind = cell.kind === undefined ? '' : ` class="${cell.kind}"`;
  const words = cell.name === undefined ? '' : ` data-name="${escapeHtml(cell.name)}"`;
  return `<${name}${more}${kind}${words}>${escapeHtml(cell.text)}</${name}>`;
}

/** A box that scrolls sideways by itself and can be reached by keyboard. */
export function scrollBox(name: string, content: string, kind = 'scroll'): string {
  return `<div class="${kind}" tabindex="0" role="region" aria-label="${escapeHtml(name)}">${content}</div>`;
}

export function list(items: string[], kind = 'plain'): string {
  return `<ul class="${kind}">${items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}</ul>`;
}

export function paragraph(text: string, kind?: string): string {
  return `<p${kind === undefined ? '' : ` class="${kind}"`}>${escapeHtml(text)}</p>`;
}

export function section(id: string, heading: string, ...content: string[]): string {
  return `<section id="${id}" aria-labelledby="${id}-heading"><h2 id="${id}-heading">${escapeHtml(heading)}</h2>\n${content.join('\n')}\n</section>`;
}

/** A drawing twice, for wide and for narrow screens (one is shown), with a caption of escaped text. */
export function figure(
  id: string,
  draw: (size: Size, id: string) => string,
  sizes: { wide: Size; slim: Size },
  caption: string,
): string {
  return `<figure><div class="wide">${draw(sizes.wide, `${id}-wide`)}</div><div class="slim">${draw(sizes.slim, `${id}-slim`)}</div><figcaption>${escapeHtml(caption)}</figcaption></figure>`;
}
