/** Every coordinate of a drawing that our own writer made, as [x, y] with NaN for an axis that is not given. */
export interface DrawnPoints {
  width: number;
  height: number;
  points: [number, number][];
}

/** Reads back what `svg.ts` writes: lines, circles, rectangles, texts, polylines and absolute paths. */
export function drawnPoints(svg: string): DrawnPoints {
  const box = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  if (box === null) throw new Error('no viewBox');
  const points: [number, number][] = [];
  for (const [, name, rest] of svg.matchAll(/<(\w+)([^>]*)>/g)) {
    const number = (key: string): number => {
      const found = new RegExp(` ${key}="([^"]*)"`).exec(rest);
      return found === null ? Number.NaN : Number(found[1]);
    };
    if (name === 'line') points.push([number('x1'), number('y1')], [number('x2'), number('y2')]);
    if (name === 'text') points.push([number('x'), number('y')]);
    if (name === 'circle') points.push([number('cx'), number('cy')]);
    if (name === 'rect') {
      if (number('width') < 0 || number('height') < 0) throw new Error(`negative size: ${rest}`);
      points.push([number('x'), number('y')]);
      points.push([number('x') + number('width'), number('y') + number('height')]);
    }
    const list = / points="([^"]*)"/.exec(rest);
    if (list !== null && list[1] !== '')
      for (const pair of list[1].split(' ')) points.push(pair.split(',').map(Number) as [number, number]);
    const path = / d="([^"]*)"/.exec(rest);
    if (path !== null) points.push(...pathPoints(path[1]));
  }
  return { width: Number(box[1]), height: Number(box[2]), points };
}

function pathPoints(path: string): [number, number][] {
  const points: [number, number][] = [];
  for (const [, command, rest] of path.matchAll(/([MLAHVhZ])([^MLAHVhZ]*)/g)) {
    const numbers = rest.split(' ').map(Number);
    if (command === 'M' || command === 'L') points.push([numbers[0], numbers[1]]);
    if (command === 'A') points.push([numbers[5], numbers[6]]);
    if (command === 'H') points.push([numbers[0], 0]);
    if (command === 'V') points.push([0, numbers[0]]);
    if (command === 'h' && numbers[0] !== 0) throw new Error(`unexpected relative step in ${path}`);
  }
  return points;
}
