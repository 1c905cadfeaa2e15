/** Breaks text at spaces into lines of at most `columns` characters; a longer word is cut. */
export function wrapWords(text: string, columns: number): string[] {
  const width = Math.max(1, columns);
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ').filter((part) => part !== '')) {
    let rest = word;
    if (current !== '' && columnsOf(current) + 1 + columnsOf(rest) <= width) {
      current += ` ${rest}`;
      continue;
    }
    if (current !== '') lines.push(current);
    while (columnsOf(rest) > width) {
      const head = headOf(rest, width);
      lines.push(head);
      rest = rest.slice(head.length);
    }
    current = rest;
  }
  if (current !== '') lines.push(current);
  return lines.length === 0 ? [''] : lines;
}

/** Terminal columns of a text: one a character, two for wide scripts and pictures, none for combining marks. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const character of text) columns += columnsOfCharacter(character);
  return columns;
}

function columnsOfCharacter(character: string): number {
  if (/\p{Mark}|\u200d/u.test(character)) return 0;
  const code = character.codePointAt(0)!;
  const wide =
    (code >= 0x1100 && code <= 0x115f) ||
    (code >= 0x2e80 && code <= 0xa4cf) ||
    (code >= 0xac00 && code <= 0xd7a3) ||
    (code >= 0xf900 && code <= 0xfaff) ||
    (code >= 0xfe30 && code <= 0xfe6f) ||
    (code >= 0xff00 && code <= 0xff60) ||
    (code >= 0xffe0 && code <= 0xffe6) ||
    (code >= 0x1f300 && code <= 0x1faff) ||
    code >= 0x20000;
  return wide ? 2 : 1;
}

/** The longest beginning of the text that fits, at least one character. */
function headOf(text: string, width: number): string {
  let head = '';
  for (const character of text) {
    if (head !== '' && columnsOf(head + character) > width) break;
    head += character;
  }
  return head;
}
