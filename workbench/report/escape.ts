/**
 * Makes any text harmless inside HTML and SVG, in content as well as in quoted attributes.
 * Rig files and recordings come from strangers: their names go through here, without exception.
 * Characters that no HTML text may hold become U+FFFD.
 */
export function escapeHtml(text: string): string {
  return harmless(text, '\ufffd', '\n')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

/**
 * Replaces control characters (which could steer a terminal) and marks that turn the reading direction
 * (which could make text look like another); line ends and tabs become spaces.
 */
export function plainText(text: string): string {
  return harmless(text, '?', ' ');
}

function harmless(text: string, instead: string, lineEnd: string): string {
  let out = '';
  for (const character of text) {
    const code = character.codePointAt(0)!;
    if (code === 10) out += lineEnd;
    else if (code === 9 || code === 13) out += ' ';
    else if (code < 32 || (code >= 127 && code < 160) || turnsDirection(code) || isLone(code)) out += instead;
    else out += character;
  }
  return out;
}

function turnsDirection(code: number): boolean {
  return (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069);
}

function isLone(code: number): boolean {
  return code >= 0xd800 && code <= 0xdfff;
}
