/** Which variants a user asked for. Names may hold commas themselves. */

/**
 * @param asked names with commas between them
 * @param known all names
 * @throws Error naming what is not known
 */
export function pickNames(asked: string, known: string[]): string[] {
  const longestFirst = [...known].sort((a, b) => b.length - a.length);
  const picked: string[] = [];
  let rest = asked;
  for (;;) {
    const name = longestFirst.find((one) => rest === one || rest.startsWith(`${one},`));
    if (name === undefined) {
      throw new Error(
        `There is no variant "${rest}". Expected names with commas between them, of: ${known.map((one) => `"${one}"`).join(', ')}.`,
      );
    }
    picked.push(name);
    if (rest === name) return picked;
    rest = rest.slice(name.length + 1).trimStart();
  }
}
