/**
 * How the interpreter reads numbers, from its C source (espruino/Espruino c5ff787): jslex.c takes digits without point
 * and exponent for whole numbers (64 bits, jsvNewFromLongInteger), all else goes through stringToFloatWithRadix in
 * jsutils.c: digits behind the point are added one by one with a factor divided by ten each time; the exponent
 * multiplies or divides by ten once a step. Works out texts made of numbers, *, /, a leading minus and brackets.
 */
export function read(text: string): number {
  let at = 0;
  const isDigit = () => at < text.length && text[at]! >= '0' && text[at]! <= '9';

  function number(): number {
    let value = 0;
    let whole = 0n;
    const start = at;
    while (isDigit()) {
      value = value * 10 + (text.charCodeAt(at) - 48);
      whole = whole * 10n + BigInt(text[at]!);
      at++;
    }
    let isFloat = false;
    if (text[at] === '.') {
      isFloat = true;
      at++;
      let weight = 0.1;
      while (isDigit()) {
        value += weight * (text.charCodeAt(at) - 48);
        weight /= 10;
        at++;
      }
    }
    if (text[at] === 'e' || text[at] === 'E') {
      isFloat = true;
      at++;
      const isDown = text[at] === '-';
      if (text[at] === '-' || text[at] === '+') at++;
      let exponent = 0;
      while (isDigit()) exponent = exponent * 10 + (text.charCodeAt(at++) - 48);
      for (; exponent > 0; exponent--) value = isDown ? value / 10 : value * 10;
    }
    if (at === start) throw new Error(`no number at ${at} of ${text}`);
    return isFloat ? value : Number(BigInt.asIntN(64, whole));
  }

  function factor(): number {
    if (text[at] === '(') {
      at++;
      const value = product();
      if (text[at++] !== ')') throw new Error(`no bracket at ${at - 1} of ${text}`);
      return value;
    }
    if (text[at] !== '-') return number();
    at++;
    const value = factor();
    // its whole numbers have no -0
    return value === 0 ? 0 : -value;
  }

  function product(): number {
    let value = factor();
    while (text[at] === '*' || text[at] === '/')
      value = text[at++] === '*' ? value * factor() : value / factor();
    return value;
  }

  const value = product();
  if (at !== text.length) throw new Error(`something else at ${at} of ${text}`);
  return value;
}

/** Doubles of all kinds: random bits, short decimals, whole numbers, powers, edges. */
export function someDoubles(count: number, random: () => number): number[] {
  const view = new DataView(new ArrayBuffer(8));
  const all = [
    ...[
      0,
      -0,
      NaN,
      Infinity,
      -Infinity,
      Number.MIN_VALUE,
      -Number.MIN_VALUE,
      Number.MAX_VALUE,
      -Number.MAX_VALUE,
    ],
    ...[
      2 ** -1022,
      2 ** -1022 - Number.MIN_VALUE,
      2 ** 53,
      2 ** 53 - 1,
      2 ** 53 + 2,
      2 ** 62,
      2 ** 63,
      2 ** 64,
      1e19,
    ],
    ...[
      1e20,
      1e21,
      123456789012345680000,
      1e22,
      1e23,
      0.1,
      0.3,
      0.15,
      0.85,
      0.95,
      4.14159,
      1 / 3,
      5e-324,
      1e-320,
    ],
    ...[2 ** 31, 2 ** 31 - 1, -(2 ** 31), 2 ** 32, 1e300, -1.7e-308, 4.35, 0.000001, 1e-7, 1.5e-7],
  ];
  for (let exponent = 0; exponent < 2048; exponent += count > 5000 ? 1 : 16) {
    view.setUint32(0, ((random() * 2 ** 20) | 0) + exponent * 2 ** 20 + (random() < 0.5 ? 0 : 2 ** 31));
    view.setUint32(4, random() * 2 ** 32);
    all.push(view.getFloat64(0));
  }
  while (all.length < count) {
    view.setUint32(0, random() * 2 ** 32);
    view.setUint32(4, random() * 2 ** 32);
    all.push(view.getFloat64(0));
    const digits = Math.floor(random() * 10 ** Math.ceil(random() * 17));
    all.push(
      digits,
      -digits,
      Number(`${digits}e-${Math.floor(random() * 25)}`),
      digits / 64,
      2 ** (digits % 1000),
    );
  }
  return all;
}
