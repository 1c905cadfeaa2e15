/*
 * Discrete Fourier transform of any length: radix 2 for powers of two, else by chirp convolution
 * (Bluestein 1970, from memory; checked against the defining sum in the tests).
 */

/** Transforms in place, length a power of two; `sign` -1 forward, +1 backward (not divided by the length). */
function radix2(re: Float64Array, im: Float64Array, sign: number): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    [re[i], re[j]] = [re[j], re[i]];
    [im[i], im[j]] = [im[j], im[i]];
  }
  for (let half = 1; half < n; half *= 2) {
    for (let k = 0; k < half; k++) {
      const angle = (sign * Math.PI * k) / half;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      for (let a = k; a < n; a += 2 * half) {
        const b = a + half;
        const x = re[b] * c - im[b] * s;
        const y = re[b] * s + im[b] * c;
        re[b] = re[a] - x;
        im[b] = im[a] - y;
        re[a] += x;
        im[a] += y;
      }
    }
  }
}

function chirpTransform(re: Float64Array, im: Float64Array, sign: number): void {
  const n = re.length;
  let size = 1;
  while (size < 2 * n) size *= 2;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  const aRe = new Float64Array(size);
  const aIm = new Float64Array(size);
  const bRe = new Float64Array(size);
  const bIm = new Float64Array(size);
  for (let k = 0; k < n; k++) {
    const angle = (sign * Math.PI * ((k * k) % (2 * n))) / n;
    cos[k] = Math.cos(angle);
    sin[k] = Math.sin(angle);
    aRe[k] = re[k] * cos[k] - im[k] * sin[k];
    aIm[k] = re[k] * sin[k] + im[k] * cos[k];
    bRe[k] = cos[k];
    bIm[k] = -sin[k];
    if (k === 0) continue;
    bRe[size - k] = cos[k];
    bIm[size - k] = -sin[k];
  }
  radix2(aRe, aIm, -1);
  radix2(bRe, bIm, -1);
  for (let k = 0; k < size; k++) {
    const x = aRe[k] * bRe[k] - aIm[k] * bIm[k];
    aIm[k] = (aRe[k] * bIm[k] + aIm[k] * bRe[k]) / size;
    aRe[k] = x / size;
  }
  radix2(aRe, aIm, 1);
  for (let k = 0; k < n; k++) {
    re[k] = aRe[k] * cos[k] - aIm[k] * sin[k];
    im[k] = aRe[k] * sin[k] + aIm[k] * cos[k];
  }
}

/**
 * Transforms in place, X(f) = Σ x(t)·exp(sign·2πi·f·t/n), not divided by n.
 * @param re real parts, any length >= 1
 * @param im imaginary parts, same length
 * @param sign -1 from time to frequency, +1 back
 */
export function fourier(re: Float64Array, im: Float64Array, sign: -1 | 1): void {
  const n = re.length;
  if ((n & (n - 1)) === 0) radix2(re, im, sign);
  else chirpTransform(re, im, sign);
}
