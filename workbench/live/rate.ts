/** Rate and evenness of frames over the last few seconds, in bounded memory. */

/** Frames looked back at: some seconds at usual rates. */
const FRAMES = 512;
const LOOK_BACK_S = 3;

export interface FrameRate {
  /** @param step 1 = the frame after the last one */
  add(deviceS: number, hostS: number, step: number): void;
  /** A frame of another kind came in between: the wait over it says nothing. */
  skip(): void;
  rateHz(nowS: number): number;
  /** Standard deviation of the time between neighbouring frames by the board's clock, ms. */
  jitterMs(): number;
  reset(): void;
}

export function createFrameRate(): FrameRate {
  const hostS = new Float64Array(FRAMES).fill(Number.NEGATIVE_INFINITY);
  const gapS = new Float64Array(FRAMES);
  let count = 0;
  let lastDeviceS = 0;
  let firstS = 0;
  let isNeighbour = false;

  return {
    add(deviceS, atS, step) {
      const slot = count % FRAMES;
      if (count === 0) firstS = atS;
      hostS[slot] = atS;
      gapS[slot] = isNeighbour && step === 1 ? deviceS - lastDeviceS : Number.NaN;
      lastDeviceS = deviceS;
      isNeighbour = true;
      count++;
    },
    skip() {
      isNeighbour = false;
    },
    rateHz(nowS) {
      let frames = 0;
      let earliest = nowS;
      for (let i = 0; i < FRAMES; i++) {
        if (hostS[i]! <= nowS - LOOK_BACK_S) continue;
        frames++;
        earliest = Math.min(earliest, hostS[i]!);
      }
      const spanS = frames === FRAMES ? nowS - earliest : Math.min(LOOK_BACK_S, nowS - firstS);
      return spanS > 0 ? frames / spanS : 0;
    },
    jitterMs() {
      let [n, sum, squares] = [0, 0, 0];
      for (let i = 0; i < Math.min(count, FRAMES); i++) {
        const gap = gapS[i]!;
        if (Number.isNaN(gap)) continue;
        n++;
        sum += gap;
        squares += gap * gap;
      }
      return n < 2 ? 0 : 1000 * Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2));
    },
    reset() {
      count = 0;
      isNeighbour = false;
      hostS.fill(Number.NEGATIVE_INFINITY);
    },
  };
}
