/**
 * Choices that no other choice beats: none is at least as small in both measures and smaller in one.
 * @param first measure to be small, one value per choice
 * @param second the other measure, same length
 * @returns indices in rising order of the first measure; equal choices are all kept (in index order), choices
 * with a NaN measure never
 * @throws RangeError when the lengths differ
 */
export function paretoFront(first: ArrayLike<number>, second: ArrayLike<number>): number[] {
  if (first.length !== second.length) {
    throw new RangeError(
      `pareto: ${first.length} values against ${second.length}; expected one pair per choice`,
    );
  }
  const order: number[] = [];
  for (let i = 0; i < first.length; i++) {
    if (!Number.isNaN(first[i]) && !Number.isNaN(second[i])) order.push(i);
  }
  // Infinities would subtract to NaN, so compare instead.
  const rank = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);
  order.sort((a, b) => rank(first[a], first[b]) || rank(second[a], second[b]) || a - b);
  const front: number[] = [];
  for (const i of order) {
    const last = front[front.length - 1];
    const isBest = last === undefined || second[i] < second[last];
    const isEqual = last !== undefined && first[i] === first[last] && second[i] === second[last];
    if (isBest || isEqual) front.push(i);
  }
  return front;
}
