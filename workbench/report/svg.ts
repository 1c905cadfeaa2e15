import { escapeHtml } from './escape.ts';

/** Small SVG writer. Coordinates are user units of the drawing, x to the right, y down, from the top left. */
export interface Size {
  width: number;
  height: number;
}

export type Attributes = Record<string, string | number | undefined>;

/** One element; attribute values are escaped, numbers rounded to 0.1; children must be SVG already. */
export function element(name: string, attributes: Attributes, ...children: string[]): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    open += ` ${key}="${typeof value === 'number' ? coordinate(value) : escapeHtml(value)}"`;
  }
  return children.length === 0 ? `${open}/>` : `${open}>${children.join('')}</${name}>`;
}

/** A coordinate with one decimal at most. */
export function coordinate(value: number): string {
  if (!Number.isFinite(value))
    throw new RangeError(`svg: a coordinate is ${value}, expected a finite number`);
  return String(Math.round(value * 10) / 10);
}

/** A text; `anchor` is start, middle or end of the text at x. */
export function label(
  x: number,
  y: number,
  content: string,
  options: { anchor?: 'start' | 'middle' | 'end'; class?: string } = {},
): string {
  const anchor = options.anchor === 'start' ? undefined : options.anchor;
  return element('text', { x, y, 'text-anchor': anchor, class: options.class }, escapeHtml(content));
}

export function line(x1: number, y1: number, x2: number, y2: number, className: string): string {
  return element('line', { x1, y1, x2, y2, class: className });
}

/** Connected points; a point with a coordinate that is not finite is left out. */
export function polyline(xs: number[], ys: number[], className: string): string {
  let points = '';
  for (let index = 0; index < xs.length; index++) {
    if (!Number.isFinite(xs[index]) || !Number.isFinite(ys[index])) continue;
    points += `${points === '' ? '' : ' '}${coordinate(xs[index])},${coordinate(ys[index])}`;
  }
  return element('polyline', { points, class: className });
}

/** Many small round dots as one path (drawn by a round line cap). */
export function dots(xs: number[], ys: number[], className: string): string {
  let path = '';
  for (let index = 0; index < xs.length; index++) {
    if (!Number.isFinite(xs[index]) || !Number.isFinite(ys[index])) continue;
    path += `M${coordinate(xs[index])} ${coordinate(ys[index])}h0`;
  }
  return path === '' ? '' : element('path', { d: path, class: className });
}

export function diamond(x: number, y: number, radius: number, className: string, title?: string): string {
  const path = `M${coordinate(x)} ${coordinate(y - radius)}L${coordinate(x + radius)} ${coordinate(y)}L${coordinate(x)} ${coordinate(y + radius)}L${coordinate(x - radius)} ${coordinate(y)}Z`;
  const children = title === undefined ? [] : [element('title', {}, escapeHtml(title))];
  return element('path', { d: path, class: className }, ...children);
}

/** Width that a text of the report's face is likely to need, on the generous side, user units. */
export function textWidth(content: string, fontSize: number): number {
  return content.length * fontSize * 0.58;
}

/** The whole drawing with its name and description for those who do not see it. */
export function drawing(
  head: { id: string; title: string; description: string; size: Size; class: string },
  body: string[],
): string {
  return element(
    'svg',
    {
      viewBox: `0 0 ${coordinate(head.size.width)} ${coordinate(head.size.height)}`,
      role: 'img',
      class: head.class,
      'aria-labelledby': `${head.id}-title ${head.id}-desc`,
    },
    element('title', { id: `${head.id}-title` }, escapeHtml(head.title)),
    element('desc', { id: `${head.id}-desc` }, escapeHtml(head.description)),
    ...body,
  );
}
