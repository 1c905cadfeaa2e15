import { isAlias, isMap, isScalar, type Pair, type YAMLMap } from 'yaml';
import { follow, readYaml, type YamlPath, type YamlSource } from './yaml-source.ts';

/** A value to stand in a rig file: where, and its text, a plain scalar such as `15.7 mm`. */
export interface FileValue {
  path: YamlPath;
  text: string;
}

/**
 * The text of a rig file with values put in or replaced. Nothing else changes, not even a space: a value that is
 * there is exchanged where it stands, one that is not joins the innermost mapping on its path.
 * @param path of each value: keys only, no places in lists
 * @returns undefined if a value's place cannot be reached without rewriting what others wrote (an alias, a list)
 */
export function withValues(source: YamlSource, values: readonly FileValue[]): string | undefined {
  let { text } = source;
  for (const value of values) {
    const next = withValue(readYaml(text, source.file), value);
    if (next === undefined) return undefined;
    text = next;
  }
  return text;
}

function withValue(source: YamlSource, { path, text }: FileValue): string | undefined {
  const { node, key, depth } = follow(source, path);
  if (node === undefined || isAlias(node)) return undefined;
  if (isScalar(node)) {
    // A key without a value: `follow` gives the key itself, or an empty scalar behind it.
    const isEmpty = node === key || node.value === null;
    if (!isEmpty) {
      const [start, end] = node.range!;
      return depth === path.length ? splice(source.text, start, end, text) : undefined;
    }
    const colon = source.text.indexOf(':', key!.range![1]);
    if (colon < 0) return undefined;
    const end = node === key ? colon + 1 : Math.max(colon + 1, node.range![1]);
    return splice(source.text, colon + 1, end, ` ${nested(path.slice(depth), text)}`);
  }
  if (!isMap(node) || depth === path.length) return undefined;
  const entry = `${nested(path.slice(depth, depth + 1))}: ${nested(path.slice(depth + 1), text)}`;
  return node.flow ? intoFlow(source.text, node, entry) : intoBlock(source, node, entry);
}

/** `{ a: { b: text } }`, or the text alone without keys. */
function nested(keys: YamlPath, text = ''): string {
  if (keys.length === 0) return text;
  const [first, ...rest] = keys;
  return text === '' ? String(first) : `{ ${String(first)}: ${nested(rest, text)} }`;
}

function splice(text: string, start: number, end: number, put: string): string {
  return text.slice(0, start) + put + text.slice(end);
}

function endOf(pair: Pair): number {
  const { key, value } = pair as Pair<{ range: number[] }, { range?: number[] } | null>;
  return value?.range?.[1] ?? key.range[1]!;
}

function intoFlow(text: string, map: YAMLMap, entry: string): string {
  const last = map.items.at(-1);
  if (!last) return splice(text, map.range![0], map.range![1], `{ ${entry} }`);
  const end = endOf(last);
  return splice(text, end, end, `, ${entry}`);
}

/** On a line of its own, behind the last entry that ends on one line, or else ahead of the first. */
function intoBlock(source: YamlSource, map: YAMLMap, entry: string): string | undefined {
  const first = map.items[0];
  if (!first) return undefined;
  const { text } = source;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const keyStart = (first.key as { range: number[] }).range[0]!;
  const indent = ' '.repeat(keyStart - (text.lastIndexOf('\n', keyStart - 1) + 1));
  const after = [...map.items].reverse().find(({ value }) => {
    const isOnLine = isMap(value) ? value.flow : isScalar(value) && !value.type?.startsWith('BLOCK');
    return isOnLine && value !== null;
  });
  if (!after) return splice(text, keyStart, keyStart, `${entry}${newline}${indent}`);
  const lineEnd = text.indexOf('\n', endOf(after));
  if (lineEnd < 0) return `${text}${newline}${indent}${entry}${newline}`;
  return splice(text, lineEnd + 1, lineEnd + 1, `${indent}${entry}${newline}`);
}
