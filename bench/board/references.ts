/** Programs to compare with: the least that a frame needs, and the same chain written by people. */
import type { FrameProgram } from './callgrind.ts';

/** Reads and sends; no chain. */
export const floor: FrameProgram = {
  text: `var p=new Uint8Array(40),r=new Float32Array(40),u=new Uint8Array(20),m=E.mapInPlace.bind(E,p,r,analogRead),z=Serial1.write.bind(Serial1,u);
function F(){m();z()}`,
  call: 'F()',
};

/** One flat function, names short, numbers written in: what a patient person would write for one rig, once. */
export const flat: FrameProgram = {
  text: `var e,w,x0=0,x1=0,x2=0,x3=0,x4=0,s=E.sum,S0,S1,S2,S3,S4,b=new ArrayBuffer(20),u=new Uint8Array(b),k=new Uint8Array(b,0,18),
m=E.mapInPlace,q=E.CRC32,t=getTime,z=Serial1.write.bind(Serial1),n=0,P=new Uint8Array(40),R=new Float32Array(40);
w=new Uint16Array(b);u[0]=245;u[14]=u[15]=128;u[16]=48;S0=R.subarray(0,8);S1=R.subarray(8,16);S2=R.subarray(16,24);S3=R.subarray(24,32);S4=R.subarray(32,40);
function F(){m(P,R,analogRead);u[1]=++n;w[1]=t()*4e3;
${[0, 1, 2, 3, 4]
  .map((i) => `e=s(S${i})-x${i};if(e*e>.0004){w[${i + 2}]=(x${i}+=e-e/(1.0625+e*e*9))*9000-1000}`)
  .join('\n')}
w[9]=q(k)>>>10;z(u)}`,
  call: 'F()',
};

/** A class for each stage, as one would write it for Node: the same chain with clip, words kept in their range. */
export const classes: FrameProgram = {
  text: `
class Clip { constructor(limit) { this.limit = limit; } apply(step) { return Math.max(-this.limit, Math.min(this.limit, step)); } }
class StillBand { constructor(half) { this.half = half; } moves(step) { return Math.abs(step) > this.half; } }
class AdaptiveLowPass {
  constructor(base, rise) { this.base = base; this.rise = rise; this.level = 0; }
  update(step) { this.level = this.level + step - step / (this.base + step * step * this.rise); return this.level; }
}
class WordScale {
  constructor(gain, offset) { this.gain = gain; this.offset = offset; }
  toWord(level) { return Math.max(0, Math.min(65534, level * this.gain + this.offset)); }
}
class Finger {
  constructor(pin) {
    this.pin = pin; this.clip = new Clip(3); this.band = new StillBand(0.02);
    this.filter = new AdaptiveLowPass(1.0625, 9); this.scale = new WordScale(9000, -1000); this.word = 0;
  }
  read() { let sum = 0; for (let i = 0; i < 8; i++) sum += analogRead(this.pin); return sum; }
  update() {
    const step = this.read() - this.filter.level;
    if (this.band.moves(step)) this.word = this.scale.toWord(this.filter.update(this.clip.apply(step)));
    return this.word;
  }
}
class FrameWriter {
  constructor() { this.buffer = new ArrayBuffer(20); this.view = new DataView(this.buffer); this.sequence = 0; }
  write(words) {
    const view = this.view;
    view.setUint8(0, 245); view.setUint8(1, this.sequence & 255); this.sequence++;
    view.setUint16(2, (getTime() * 4000) & 65535, true);
    for (let i = 0; i < words.length; i++) view.setUint16(4 + 2 * i, words[i], true);
    view.setUint16(18, (E.CRC32(new Uint8Array(this.buffer, 0, 18)) >>> 10) & 65535, true);
    Serial1.write(this.buffer);
  }
}
class Hand {
  constructor(pins) { this.fingers = pins.map(function (pin) { return new Finger(pin); }); this.writer = new FrameWriter(); }
  frame() {
    const words = this.fingers.map(function (finger) { return finger.update(); });
    this.writer.write(words);
  }
}
var hand = new Hand([0, 0, 0, 0, 0]);`,
  call: 'hand.frame()',
};
