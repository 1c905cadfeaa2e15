/** Single-letter edits (insert, drop, change) from one word to another. */
function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = row[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(change, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[to.length]!;
}

/**
 * The known word that someone most likely meant.
 * @returns undefined when nothing is near: more than a third of the letters, or two of a short word, would have to change
 */
export function suggest(word: string, known: readonly string[]): string | undefined {
  if (word.length > 60) return undefined;
  const plain = (text: string) => text.toLowerCase().replace(/[-_ ]/g, '');
  const limit = Math.max(word.length > 3 ? 2 : 1, Math.floor(word.length / 3));
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const candidate of known) {
    const distance = editDistance(plain(word), plain(candidate));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}
