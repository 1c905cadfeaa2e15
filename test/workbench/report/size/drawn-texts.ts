import { textWidth } from '../../../../workbench/report/svg.ts';

export interface Box {
  text: string;
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const FONT = 12;

function numberOf(rest: string, key: string): number {
  return Number(new RegExp(` ${key}="([^"]*)"`).exec(rest)?.[1]);
}

/** Boxes of all texts of a drawing by our own writer, generous in width, from the top of capitals to below the line. */
export function drawnTexts(svg: string): Box[] {
  return [...svg.matchAll(/<text([^>]*)>([^<]*)<\/text>/g)].map(([, rest = '', content = '']) => {
    const text = content.replace(/&#39;/g, "'").replace(/&amp;/g, '&');
    const [x, y, width] = [numberOf(rest, 'x'), numberOf(rest, 'y'), textWidth(text, FONT)];
    const anchor = / text-anchor="(\w+)"/.exec(rest)?.[1] ?? 'start';
    const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
    return { text, left, right: left + width, top: y - 9, bottom: y + 3 };
  });
}

export function overlaps(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Straight pieces of all lines, paths and outlines, [x1, y1, x2, y2]. */
export function drawnStrokes(svg: string): [number, number, number, number][] {
  const strokes: [number, number, number, number][] = [];
  for (const [, name, rest = ''] of svg.matchAll(/<(line|path|rect)([^>]*)>/g)) {
    if (name === 'line') {
      strokes.push([numberOf(rest, 'x1'), numberOf(rest, 'y1'), numberOf(rest, 'x2'), numberOf(rest, 'y2')]);
    }
    if (name === 'rect') {
      const [x, y] = [numberOf(rest, 'x'), numberOf(rest, 'y')];
      const [right, bottom] = [x + numberOf(rest, 'width'), y + numberOf(rest, 'height')];
      strokes.push(
        [x, y, right, y],
        [right, y, right, bottom],
        [x, bottom, right, bottom],
        [x, y, x, bottom],
      );
    }
    const path = / d="M([^"Z]*)/.exec(rest)?.[1];
    if (path === undefined) continue;
    const corners = path.split('L').map((corner) => corner.split(' ').map(Number));
    corners.forEach(([x = 0, y = 0], i) => {
      const [fromX = x, fromY = y] = corners[i - 1] ?? [];
      if (i > 0) strokes.push([fromX, fromY, x, y]);
    });
  }
  return strokes;
}

/** Whether a straight piece runs through a box, looked at in small steps. */
export function crosses([x1, y1, x2, y2]: [number, number, number, number], box: Box): boolean {
  const steps = Math.ceil(Math.hypot(x2 - x1, y2 - y1)) + 1;
  for (let i = 0; i <= steps; i++) {
    const x = x1 + ((x2 - x1) * i) / steps;
    const y = y1 + ((y2 - y1) * i) / steps;
    if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
  }
  return false;
}
