import { type Document, isMap, isNode, isScalar, isSeq, type Node, type Pair, parseDocument } from 'yaml';
import type { Place, Problem } from '../../sim/errors.ts';

export type YamlPath = readonly PropertyKey[];

/** What a kind of YAML file is called in messages. */
export interface YamlKind {
  /** Of the error that lists what is wrong with it, such as `rig/invalid`. */
  code: string;
  /** With its article. */
  noun: string;
  /** Command that makes one to start from. */
  example: string;
  /** What to do instead of an alias. */
  insteadOfAlias: string;
  /** Largest size, characters, and in words. */
  most: { characters: number; words: string };
}

/** A YAML text with what is needed to say where things are in it. */
export interface YamlSource {
  /** Path as the user gave it. */
  file: string;
  /** Without a byte order mark. */
  text: string;
  document: Document.Parsed;
}

/** Parses a text; never throws. What is wrong with it is in `document.errors`. */
export function readYaml(text: string, file: string): YamlSource {
  const document = parseDocument(text, { prettyErrors: false, stringKeys: true });
  return { file, text, document };
}

/** Place of a character. Counted here: the parser's own counter misses line ends behind some of its errors. */
export function placeAt(source: YamlSource, offset: number): Place {
  const before = source.text.slice(0, Math.max(0, offset));
  const lineStart = before.lastIndexOf('\n') + 1;
  return { file: source.file, line: before.split('\n').length, column: before.length - lineStart + 1 };
}

function pairAt(node: unknown, key: PropertyKey): Pair<unknown, unknown> | undefined {
  if (!isMap(node)) return undefined;
  return node.items.find((pair) => isScalar(pair.key) && pair.key.value === key);
}

/** What is found on the way down a path. */
export interface Found {
  /** Deepest node that is there. */
  node: Node | undefined;
  /** Key that leads to it. */
  key: Node | undefined;
  /** How many steps of the path are there. */
  depth: number;
}

/** Follows a path as far as it goes. */
export function follow(source: YamlSource, path: YamlPath): Found {
  let node: Node | undefined = source.document.contents ?? undefined;
  let key: Node | undefined;
  let depth = 0;
  for (const step of path) {
    if (isSeq(node) && typeof step === 'number') {
      const item = node.items[step];
      if (!isNode(item)) break;
      node = item;
      key = undefined;
    } else {
      const pair = pairAt(node, step);
      if (!pair) break;
      key = isNode(pair.key) ? pair.key : undefined;
      node = isNode(pair.value) ? pair.value : key;
    }
    depth += 1;
  }
  return { node, key, depth };
}

/** Whether a path leads to something written in the file. */
export function isWritten(source: YamlSource, path: YamlPath): boolean {
  return follow(source, path).depth === path.length;
}

/** Place of the value at a path, or of the deepest thing above it that is there. */
export function valuePlace(source: YamlSource, path: YamlPath): Place {
  const { node, key } = follow(source, path);
  // A block mapping begins at its first key, one line down, and an empty value nowhere to be seen: the key that
  // names them is the better place.
  const isHidden = (isMap(node) && !node.flow) || (isScalar(node) && node.value === null);
  const better = key !== undefined && isHidden ? key : node;
  return placeAt(source, better?.range?.[0] ?? 0);
}

/** Place of the key at the end of a path. */
export function keyPlace(source: YamlSource, path: YamlPath): Place {
  const { node, key } = follow(source, path);
  return placeAt(source, (key ?? node)?.range?.[0] ?? 0);
}

/** The value at a path as it stands in the file, cut to one short line. */
export function snippet(source: YamlSource, path: YamlPath): string {
  const { node } = follow(source, path);
  if (isMap(node)) return 'a mapping';
  if (isSeq(node)) return 'a list';
  if (!node?.range || (isScalar(node) && node.value === null)) return 'nothing';
  const raw = source.text.slice(node.range[0], node.range[1]).trim().split(/\r?\n/)[0]!;
  const shown = raw.length > 40 ? `${raw.slice(0, 40)}…` : raw;
  return /^["']/.test(shown) ? shown : `"${shown}"`;
}

/** `fingers.thumb.momentArms[2]` */
export function pathText(path: YamlPath): string {
  let text = '';
  for (const step of path)
    text += typeof step === 'number' ? `[${step}]` : `${text === '' ? '' : '.'}${String(step)}`;
  return text === '' ? 'the file' : text;
}

/** A problem at a place. */
export function problemAt(place: Place, seen: string, expected: string, next: string): Problem {
  return { ...place, seen, expected, next };
}
