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
  /** Step and `t` of each packet. */
  packets: [step: number, t: unknown][];
  /** Files that are there at the start. */
  files: [name: string, bytes: number[]][];
  /** How the file store fails. */
  storeFault: 'none' | 'full' | 'lies' | 'throws';
}

export interface World {
  analogRead: (pin: number) => number;
  digitalRead: (pins: number | number[]) => number;
  digitalWrite: (pins: number | number[], value: number) => void;
  getTime: () => number;
  /** Call for every frame on the line: throws when the line does. */
  sending: () => void;
  storage: {
    read: (name: string) => string | undefined;
    readArrayBuffer: (name: string) => ArrayBuffer | undefined;
    write: (name: string, data: Uint8Array) => boolean;
    getFree: () => number;
  };
  /** Names and contents of all files, in the order in which they were first written. */
  files: () => { name: string; bytes: Uint8Array }[];
  /** Readings taken so far. */
  reads: () => number;
  /** Moves the clock on; `t` of the packet that comes before this step's tick, if any. */
  advance: (step: number) => unknown;
}

/** Source of `makeWorld(spec)`. */
export const WORLD = `
function makeWorld(spec) {
  var x = spec.seed, us = 1000000, step = 0, lines = [0, 0, 0], next = 0, taken = 0, fault = 0, files = [];
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
  // one finger: rest, slow way, rest, quick way, noise, now and then a spike; for a time off, or frozen
  function finger(n) {
    var p = (step + 61 * n) % 400, c;
    if (p < 90) c = 520 + 11 * n;
    else if (p < 190) c = 520 + 11 * n + 24 * (p - 90);
    else if (p < 300) c = 2920 + 11 * n;
    else if (p < 306) c = 2920 + 11 * n - 400 * (p - 300);
    else c = 520 + 11 * n;
    if (step % 700 >= 600 && step % 700 < 640 && n % 3 === 0) return 0;
    if (step % 900 >= 300 && n % 5 === 1) return 1777;
    // for a time without noise: readings that are all the same
    if (step % 600 < 500) c = c + (random() & 7) - 3;
    if ((random() & 255) === 7) c = c + (random() & 511) - 256;
    if ((random() & 1023) === 9) c = c + (random() & 4095) - 2048;
    return clipped(c);
  }
  function analogRead(pin) {
    var i = spec.fingerPins.indexOf(pin);
    taken++;
    if (fault === 1) {
      fault = 0;
      throw new Error("pin");
    }
    if (pin === spec.signalPin) return finger(selected()) / 4096;
    if (i >= 0) return finger(i) / 4096;
    if (pin === spec.railPin) {
      // sags, and its wire comes off for a time
      if (step % 410 > 395) return 0;
      return clipped(2048 + (random() & 15) + (step % 300 > 250 ? -300 : 0)) / 4096;
    }
    i = spec.axisPins.indexOf(pin);
    if (i >= 0) return clipped(((step * (7 + i)) % 5000) - 400) / 4096;
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
  function sending() {
    if (fault === 2) {
      fault = 0;
      throw new Error("line");
    }
  }
  function fileOf(name) {
    for (var i = 0; i < files.length; i++) if (files[i].name === name) return files[i];
    return undefined;
  }
  function put(name, bytes, length) {
    var file = fileOf(name), copy = new Uint8Array(length);
    for (var i = 0; i < length; i++) copy[i] = bytes[i];
    if (file) file.bytes = copy;
    else files.push({ name: name, bytes: copy });
  }
  var storage = {
    read: function (name) { return undefined; },
    readArrayBuffer: function (name) {
      var file = fileOf(name);
      if (spec.storeFault === "throws" && (step & 3) === 3) throw new Error("store");
      return file ? file.bytes.buffer : undefined;
    },
    write: function (name, data) {
      if (spec.storeFault === "throws") throw new Error("store");
      put(name, data, spec.storeFault === "lies" ? 20 : data.length);
      return true;
    },
    getFree: function () {
      if (spec.storeFault === "throws" && (step & 1) === 1) throw new Error("store");
      return spec.storeFault === "full" ? 171 : 172;
    }
  };
  function advance(n) {
    var d = spec.periodUs, m = n % 211, f = n % 401;
    step = n;
    if (m === 50) d = 0;
    else if (m === 51) d = 10;
    else if (m === 70) d = d / 2 + 80;
    else if (m === 90) d = 3 * d;
    else if (m === 120) d = 40 * d;
    else if (m === 160) d = -700000;
    us = us + d - 180;
    if (us < 0) us = 1000;
    if (next < spec.packets.length && spec.packets[next][0] === n) {
      fault = 0;
      return spec.packets[next++][1];
    }
    fault = f === 200 ? 1 : f === 300 ? 2 : 0;
    return undefined;
  }
  for (var i = 0; i < spec.files.length; i++) put(spec.files[i][0], spec.files[i][1], spec.files[i][1].length);
  return { analogRead: analogRead, digitalRead: digitalRead, digitalWrite: digitalWrite, getTime: getTime,
    sending: sending, storage: storage, files: function () { return files; }, reads: function () { return taken; },
    advance: advance };
}
`;
