/** Random numbers one after the other, as most programs draw them. */
export class Random {
  #x: number;
  #y = 362436069;
  #z = 521288629;
  #w = 88675123;
  #spare: number | undefined;

  /** @param seed any integer; equal seeds give equal numbers */
  constructor(seed: number) {
    this.#x = (seed ^ 123456789) | 0;
    // Neighbouring seeds start with related numbers: let them drift apart.
    for (let i = 0; i < 20; i++) this.uniform();
  }

  /** Strictly between 0 and 1. Source: xorshift128 of Marsaglia, J. Stat. Software 8 (2003) 14. */
  uniform(): number {
    const t = this.#x ^ (this.#x << 11);
    this.#x = this.#y;
    this.#y = this.#z;
    this.#z = this.#w;
    this.#w = this.#w ^ (this.#w >>> 19) ^ t ^ (t >>> 8);
    return ((this.#w >>> 0) + 0.5) / 4294967296;
  }

  /** Mean 0, standard deviation 1. Source: Box and Muller, Ann. Math. Statist. 29 (1958) 610. */
  normal(): number {
    if (this.#spare !== undefined) {
      const spare = this.#spare;
      this.#spare = undefined;
      return spare;
    }
    const radius = Math.sqrt(-2 * Math.log(this.uniform()));
    const angle = 2 * Math.PI * this.uniform();
    this.#spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  }
}
