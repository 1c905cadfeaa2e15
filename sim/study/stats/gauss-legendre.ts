/** Abscissas and weights of a quadrature rule over -1..1. */
export interface QuadratureRule {
  x: Float64Array;
  weight: Float64Array;
}

/**
 * Gauss-Legendre rule of the given order: exact for polynomials up to degree 2·order − 1.
 * @param order number of nodes, 1-200
 * Source: computed; roots of the Legendre polynomial by Newton's method from cos(π(i + 3/4)/(order + 1/2)).
 */
export function gaussLegendre(order: number): QuadratureRule {
  const x = new Float64Array(order);
  const weight = new Float64Array(order);
  for (let i = 0; i < order; i++) {
    let root = -Math.cos((Math.PI * (i + 0.75)) / (order + 0.5));
    let slope = 0;
    for (let round = 0; round < 20; round++) {
      let previous = 1;
      let value = root;
      for (let n = 2; n <= order; n++) {
        const next = ((2 * n - 1) * root * value - (n - 1) * previous) / n;
        previous = value;
        value = next;
      }
      slope = (order * (previous - root * value)) / (1 - root * root);
      const correction = value / slope;
      root -= correction;
      if (Math.abs(correction) < 1e-15) break;
    }
    x[i] = root;
    weight[i] = 2 / ((1 - root * root) * slope * slope);
  }
  return { x, weight };
}
