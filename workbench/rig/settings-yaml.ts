import { Document, isMap, isScalar, Lexer, parseDocument, type YAMLMap } from 'yaml';
import type { Settings } from '../../firmware/chain/settings.ts';
import { formatQuantity } from './units.ts';
import { placeAt, type YamlSource } from './yaml-source.ts';

type Plain = { [key: string]: string | number | Plain };

const hz = (value: number) => formatQuantity(value, 'frequency');
const pct = (value: number) => formatQuantity(value, 'percent');

function lowPassBlock(lowPass: Settings['lowPass']): Plain {
  switch (lowPass.kind) {
    case 'none':
      return { kind: 'none' };
    case 'exponential':
      return { kind: lowPass.kind, cutoff: hz(lowPass.cutoffHz) };
    case 'oneEuro': {
      const { kind, minCutoffHz, beta, speedCutoffHz } = lowPass;
      return { kind, minCutoff: hz(minCutoffHz), beta, speedCutoff: hz(speedCutoffHz) };
    }
    case 'adaptive':
      return { kind: lowPass.kind, restCutoff: hz(lowPass.restCutoffHz), rise: hz(lowPass.riseHz) };
  }
}

/** Settings as the plain value of the `settings` block. */
export function settingsBlock(settings: Settings): Plain {
  const { despike, hysteresis } = settings;
  return {
    oversampling: settings.oversampling,
    despike:
      despike.kind === 'clip' ? { kind: 'clip', limit: pct(despike.limitPct) } : { kind: despike.kind },
    lowPass: lowPassBlock(settings.lowPass),
    hysteresis:
      hysteresis.kind === 'none'
        ? { kind: 'none' }
        : {
            kind: hysteresis.kind,
            width: pct(hysteresis.widthPct),
            ...('stillPct' in hysteresis && { still: pct(hysteresis.stillPct) }),
          },
  };
}

/** Sets a mapping to a plain value leaf by leaf, so that the comments of what stays are kept. */
function assign(document: Document, map: YAMLMap, value: Plain): void {
  for (const pair of [...map.items]) {
    if (isScalar(pair.key) && !Object.hasOwn(value, String(pair.key.value))) map.delete(pair.key);
  }
  for (const [key, inner] of Object.entries(value)) {
    const old = map.get(key, true);
    if (typeof inner === 'object') {
      if (isMap(old)) assign(document, old, inner);
      else map.set(key, document.createNode(inner));
    } else if (isScalar(old)) {
      old.value = inner;
      delete old.source;
    } else {
      map.set(key, inner);
    }
  }
}

/** Comments of a text, in order. */
function commentsOf(text: string): string[] {
  const comments: string[] = [];
  let before = '';
  for (const token of new Lexer().lex(text)) {
    // A scalar's text follows a control character; it may start with # inside a block of text.
    if (token.startsWith('#') && before !== '\u001f') comments.push(token.trim());
    before = token;
  }
  return comments;
}

/** The new block as text at no indentation, with every comment of the old one. Ends with a newline. */
function blockText(oldBlock: string, settings: Settings): string {
  const plain = settingsBlock(settings);
  const document = oldBlock === '' ? new Document({}) : parseDocument(oldBlock);
  const old = document.get('settings');
  if (isMap(old)) assign(document, old, plain);
  else document.set('settings', document.createNode(plain));
  let text = document.toString({ lineWidth: 0 });
  const kept = commentsOf(text);
  for (const comment of commentsOf(oldBlock)) {
    const at = kept.indexOf(comment);
    if (at >= 0) kept.splice(at, 1);
    // Comments of keys that are gone still belong to whoever wrote them.
    else text += `  ${comment}\n`;
  }
  return text;
}

const isBlank = (line: string) => line.trim() === '';
const isComment = (line: string) => line.trimStart().startsWith('#');
const indentOf = (line: string) => line.length - line.trimStart().length;
const isDocumentEnd = (line: string) => /^(\.\.\.|---)(\s|$)/.test(line);

/** First line after the block that starts at a line: what is indented further, blank or comment belongs to it. */
function blockEnd(lines: string[], start: number, indent: number): number {
  let end = start + 1;
  while (end < lines.length) {
    const line = lines[end]!;
    if (isDocumentEnd(line) || (!isBlank(line) && !isComment(line) && indentOf(line) <= indent)) break;
    end += 1;
  }
  while (end > start + 1) {
    const line = lines[end - 1]!;
    if (!isBlank(line) && !(isComment(line) && indentOf(line) <= indent)) break;
    end -= 1;
  }
  return end;
}

/** Lines with their ends, so that joining them gives the text back. */
function splitLines(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

/**
 * The text of a rig file with its `settings` block put in or replaced. Outside of the block not one character
 * changes (a file whose top level is written in braces is laid out anew; its comments stay).
 */
export function withSettings(source: YamlSource, settings: Settings): string {
  const { text, document } = source;
  const root = document.contents;
  if (!isMap(root) || root.flow) {
    const copy = document.clone();
    copy.set('settings', copy.createNode(settingsBlock(settings)));
    return copy.toString({ lineWidth: 0 });
  }
  const newline = /\r\n/.test(text) ? '\r\n' : '\n';
  const lines = splitLines(text);
  const keyOffset = (key: unknown) => (isScalar(key) ? (key.range?.[0] ?? 0) : 0);
  const indent = placeAt(source, keyOffset(root.items[0]?.key)).column - 1;
  const pair = root.items.find(({ key }) => isScalar(key) && key.value === 'settings');
  let start: number;
  let end: number;
  if (pair) {
    start = placeAt(source, keyOffset(pair.key)).line - 1;
    end = blockEnd(lines, start, indent);
  } else {
    const marker = lines.findIndex((line, row) => row > 0 && /^\.\.\.(\s|$)/.test(line));
    start = marker < 0 ? lines.length : marker;
    end = start;
  }
  const fresh = splitLines(blockText(lines.slice(start, end).join('').replace(/\r\n/g, '\n'), settings))
    .map((line) => (isBlank(line) ? line : ' '.repeat(indent) + line))
    .map((line) => line.replace(/\n$/, newline));
  if (!pair && start > 0) {
    if (!lines[start - 1]!.endsWith('\n')) lines[start - 1] += newline;
    if (!isBlank(lines[start - 1]!)) fresh.unshift(newline);
  }
  return [...lines.slice(0, start), ...fresh, ...lines.slice(end)].join('');
}
