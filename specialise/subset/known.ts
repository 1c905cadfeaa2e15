/** Names that the interpreter knows, and functions that it lacks or works out otherwise. */
import type { Rule } from './rule.ts';

/** Globals of the ESP32 builds that a program may use (names of the interpreter's reference). */
export const INTERPRETER_NAMES: ReadonlySet<string> = new Set(
  `E ESP32 Pin Serial1 Serial2 Serial3 I2C1 I2C2 SPI1 SPI2 LoopbackA LoopbackB Storage
  analogRead analogWrite digitalRead digitalWrite digitalPulse pinMode setWatch clearWatch peek8 poke8
  setTimeout clearTimeout setInterval clearInterval changeInterval getTime setTime getSerial
  print echo load reset save dump trace edit require eval global process console NRF Modules
  Array ArrayBuffer DataView Date Error SyntaxError TypeError InternalError ReferenceError Function JSON Math
  Number Object Promise RegExp String Boolean Waveform
  Int8Array Uint8Array Uint8ClampedArray Int16Array Uint16Array Uint24Array Int32Array Uint32Array
  Float32Array Float64Array
  NaN Infinity HIGH LOW undefined arguments isNaN isFinite parseInt parseFloat atob btoa
  encodeURIComponent decodeURIComponent globalThis`.split(/\s+/),
);

/** Pins have names of their own. */
export const PIN = /^([A-J]|D|LED|BTN)\d{1,2}$/;

const LACKING = new Set(
  `at flat flatMap findLast findLastIndex copyWithin toPrecision reduceRight lastIndexOf entries codePointAt
  localeCompare search matchAll normalize hasOwn freeze isFrozen seal`.split(/\s+/),
);
/** Members of built-in objects. All others of Math and Number are refused. */
const MATH = new Set(
  'abs min max floor ceil sign random PI E LN2 LN10 LOG2E LOG10E SQRT2 SQRT1_2'.split(' '),
);
const NUMBER = new Set('MAX_VALUE MIN_VALUE NaN NEGATIVE_INFINITY POSITIVE_INFINITY'.split(' '));
const BUILT_IN = /^(Array|Object|String|Function|ArrayBuffer|Map|Set|Promise|Error|\w+Array)$/;

export const memberRule: Rule = (node, path) => {
  if (node.type === 'Identifier' && node.name === 'parseFloat' && path.at(-1)?.type === 'CallExpression') {
    return { seen: 'parseFloat, which misreads most decimals', expected: 'whole numbers and a division' };
  }
  if (node.type !== 'MemberExpression' || node.computed || node.property.type !== 'Identifier')
    return undefined;
  const { name } = node.property;
  const object = node.object.type === 'Identifier' ? node.object.name : '';
  const full = object === '' ? `.${name}` : `${object}.${name}`;
  const isLacking =
    (LACKING.has(name) && full !== 'Object.entries') ||
    (object === 'Math' && !MATH.has(name)) ||
    (object === 'Number' && !NUMBER.has(name)) ||
    (object === 'Object' && name === 'is') ||
    (/Array$/.test(object) && (name === 'from' || name === 'of')) ||
    (BUILT_IN.test(object) && name === 'prototype');
  if (isLacking)
    return { seen: `${full}, which is not there or gives other numbers`, expected: 'arithmetic' };
  if (name === 'toFixed') return { seen: 'toFixed, which rounds otherwise', expected: 'whole numbers' };
  return undefined;
};
