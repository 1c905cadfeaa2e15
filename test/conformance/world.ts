/**
 * The outside of a board as one piece of plain ES5, run as it is by Node, by a script sandbox and by the interpreter:
 * pins, clock, line, file store. Whole numbers only, so that all three agree to the last bit.
 */
export interface WorldSpec {
  seed: number;
  /** Frame period, us. */
  periodUs: number;
  fingerPins: number[];
  /** Pin behind the multiplexer and its select lines; -1 and [] without one. */
  signalPin: number;
  selectPins: number[];
  railPin: number;
  axisPins: number[];
  buttonPins: number[];
  /** Step and text of each packet. */
  packets: [step: number, text: string][];
}

export interface World {
  analogRead: (pin: number) => number;
  digitalRead: (pins: number | number[]) => number;
  digitalWrite: (pins: number | number[], value: number) => void;
  getTime: () => number;
  storage: {
    read: (name: string) => string | undefined;
    readArrayBuffer: (name: string) => ArrayBuffer | undefined;
    write: (name: string, data: Uint8Array) => boolean;
    getFree: () => number;
  };
  /** Readings taken so far. */
  reads: () => number;
  /** Moves the clock on; the packet that comes before this step's tick, if any. */
  advance: (step: number) => string | undefined;
}

/** Source of `makeWorld(spec)`. */
export const WORLD = `
function makeWorld(spec) {
  var x = spec.seed, us = 1000000, step = 0, lines = [0, 0, 0], files = {}, next = 0, taken = 0;
  function random() {
    x = x ^ (x << 13);
    x = x ^ (x >>> 17);
    x = x ^ (x << 5);
    return x & 65535;
  }
  function selected() {
    return lines[0] + 2 * lines[1] + 4 * lines[2];
  }
  function clipped(c) {
    return c < 0 ? 0 : c > 4095 ? 4095 : c;
  }
  // one finger: rest, slow way, rest, quick way, noise, now and then a spike; later off, and frozen
  function finger(n) {
    var p = (step + 61 * n) % 400, c;
    if (p < 90) c = 520 + 11 * n;
    else if (p < 190) c = 520 + 11 * n + 24 * (p - 90);
    else if (p < 300) c = 2920 + 11 * n;
    else if (p < 306) c = 2920 + 11 * n - 400 * (p - 300);
    else c = 520 + 11 * n;
    if (step % 700 >= 600 && step % 700 < 640 && n % 3 === 0) return 0;
    if (step % 900 >= 640 && n % 5 === 1) return 1777;
    c = c + (random() & 7) - 3;
    if ((random() & 255) === 7) c = c + (random() & 511) - 256;
    return clipped(c);
  }
  function analogRead(pin) {
    var i = spec.fingerPins.indexOf(pin);
    taken++;
    if (pin === spec.signalPin) return finger(selected()) / 4096;
    if (i >= 0) return finger(i) / 4096;
    if (pin === spec.railPin) return clipped(2048 + (random() & 15) + (step % 300 > 250 ? -300 : 0)) / 4096;
    i = spec.axisPins.indexOf(pin);
    if (i >= 0) return clipped(((step * (7 + i)) % 5000) - 400 + (step < 2 ? 2300 : 0)) / 4096;
    return 0;
  }
  function down(pin) {
    var i = spec.buttonPins.indexOf(pin), p = (step + 37 * i) % 160;
    if (p < 80) return 1;
    // bouncing contacts
    if (p < 84) return random() & 1;
    return p < 150 ? 0 : 1;
  }
  function digitalRead(pins) {
    if (typeof pins === "number") return down(pins);
    var bits = 0;
    for (var i = 0; i < pins.length; i++) bits = 2 * bits + down(pins[i]);
    return bits;
  }
  function digitalWrite(pins, value) {
    if (typeof pins === "number") lines[spec.selectPins.indexOf(pins)] = value;
    else for (var i = 0; i < pins.length; i++)
      lines[spec.selectPins.indexOf(pins[i])] = (value >> (pins.length - 1 - i)) & 1;
  }
  function getTime() {
    us = us + 90;
    return us / 1000000;
  }
  var storage = {
    read: function (name) { return undefined; },
    readArrayBuffer: function (name) { return files[name]; },
    write: function (name, data) {
      var copy = new Uint8Array(data.length);
      copy.set(data);
      files[name] = copy.buffer;
      return true;
    },
    getFree: function () { return 100000; }
  };
  function advance(n) {
    var d = spec.periodUs, m = n % 211;
    step = n;
    if (m === 50) d = 0;
    else if (m === 51) d = 10;
    else if (m === 90) d = 3 * d;
    else if (m === 120) d = 40 * d;
    else if (m === 160) d = -700000;
    us = us + d - 180;
    if (us < 0) us = 1000;
    if (next < spec.packets.length && spec.packets[next][0] === n) return spec.packets[next++][1];
    return undefined;
  }
  return { analogRead: analogRead, digitalRead: digitalRead, digitalWrite: digitalWrite, getTime: getTime,
    storage: storage, reads: function () { return taken; }, advance: advance };
}
`;
