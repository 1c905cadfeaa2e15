/**
 * The chain and the frame as one would write them for Node, without a thought for an interpreter: a class for each
 * stage. Same steps as the default chain and the same 20 bytes (protocol/SPEC.md).
 */
declare const E: { CRC32(bytes: Uint8Array): number };
declare const Serial1: { write(bytes: Uint8Array): void };
declare function analogRead(pin: number): number;
/** Seconds since the start. */
declare function getTime(): number;

// Pin 0 for all: the stand-in for a resting read is the root of the pin's number.
const PINS = [0, 0, 0, 0, 0];
const READINGS = 8;
const WORD_MAX = 65534;

class ReadingSum {
  constructor(
    private readonly pin: number,
    private readonly count: number,
  ) {}

  take(): number {
    let sum = 0;
    for (let i = 0; i < this.count; i++) sum += analogRead(this.pin);
    return sum;
  }
}

class StillBand {
  constructor(private readonly half: number) {}

  isLeftBy(step: number): boolean {
    return Math.abs(step) > this.half;
  }
}

class Clip {
  constructor(private readonly limit: number) {}

  update(step: number): number {
    return Math.max(-this.limit, Math.min(this.limit, step));
  }
}

class AdaptiveLowPass {
  level = 0;

  constructor(
    private readonly base: number,
    private readonly rise: number,
  ) {}

  update(step: number): number {
    this.level += step - step / (this.base + step * step * this.rise);
    return this.level;
  }
}

class LinearCalibration {
  constructor(
    private readonly gain: number,
    private readonly offset: number,
  ) {}

  update(level: number): number {
    return Math.max(0, Math.min(WORD_MAX, level * this.gain + this.offset));
  }
}

class Finger {
  private readonly readings: ReadingSum;
  private readonly band = new StillBand(0.02);
  private readonly clip = new Clip(3);
  private readonly lowPass = new AdaptiveLowPass(1.0625, 9);
  private readonly calibration = new LinearCalibration(9000, -1000);
  private word = 0;

  constructor(pin: number) {
    this.readings = new ReadingSum(pin, READINGS);
  }

  update(): number {
    const step = this.readings.take() - this.lowPass.level;
    if (this.band.isLeftBy(step)) {
      this.word = this.calibration.update(this.lowPass.update(this.clip.update(step)));
    }
    return this.word;
  }
}

class FramePacker {
  private readonly bytes = new Uint8Array(20);
  private readonly view = new DataView(this.bytes.buffer);
  private readonly checked = new Uint8Array(this.bytes.buffer, 0, 18);
  private sequence = 0;

  pack(words: number[], timeS: number): Uint8Array {
    this.sequence = (this.sequence + 1) & 255;
    this.view.setUint8(0, 0xf5);
    this.view.setUint8(1, this.sequence);
    this.view.setUint16(2, (timeS * 4000) & 0xffff, true);
    words.forEach((word, i) => {
      this.view.setUint16(4 + 2 * i, word, true);
    });
    this.view.setUint8(14, 128);
    this.view.setUint8(15, 128);
    this.view.setUint8(16, (1 << 5) | (1 << 4));
    this.view.setUint8(17, 0);
    this.view.setUint16(18, (E.CRC32(this.checked) >>> 10) & 0xffff, true);
    return this.bytes;
  }
}

class Hand {
  private readonly fingers: Finger[];
  private readonly packer = new FramePacker();

  constructor(pins: number[]) {
    this.fingers = pins.map((pin) => new Finger(pin));
  }

  frame(): void {
    const words = this.fingers.map((finger) => finger.update());
    Serial1.write(this.packer.pack(words, getTime()));
  }
}

export default new Hand(PINS);
