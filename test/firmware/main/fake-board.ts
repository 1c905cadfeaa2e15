import type { BoardActions } from '../../../firmware/main/perform.ts';

/** A board that writes down what it was told to do. */
export function fakeBoard() {
  const done: string[] = [];
  const numbers = new Float64Array(45);
  const actions: BoardActions = {
    version: (which) => [0x0103, 0xdeadbeef][which] ?? Number.NaN,
    counter: (which) => [5, 6, 7, 8][which] ?? Number.NaN,
    setNumber(finger, index, value) {
      done.push(`set ${finger} ${index} ${value}`);
      if (index >= 9) return false;
      numbers[9 * finger + index] = value;
      return true;
    },
    getNumber: (finger, index) => numbers[9 * finger + index] ?? Number.NaN,
    raw(channel) {
      done.push(`raw ${channel}`);
      return channel !== 4;
    },
    beginCapture() {
      done.push('begin');
      return true;
    },
    endCapture() {
      done.push('end');
      return 0b10101;
    },
    store(replace) {
      done.push(`store ${replace}`);
      return 0;
    },
    stored: (which) => [4294967295, 0x010][which] ?? Number.NaN,
    zero(finger) {
      done.push(`zero ${finger}`);
      return true;
    },
    identify: () => 0xcbf43926,
    stream(on) {
      done.push(`stream ${on}`);
    },
    failed() {
      done.push('failed');
    },
    restart() {
      done.push('restart');
    },
  };
  return { actions, done, numbers };
}
