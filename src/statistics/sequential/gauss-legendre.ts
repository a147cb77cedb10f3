/** Places and weights of a quadrature rule on -1 to 1. */
export interface QuadratureRule {
  places: Float64Array;
  weights: Float64Array;
}

/**
 * Gauss-Legendre rule on -1 to 1, exact for polynomials of degree 2 count - 1.
 * @source roots by Newton's method on the Legendre recurrence: Abramowitz and Stegun 1964, 25.4.29
 * @example gaussLegendre(2).weights // [1, 1]
 */
export function gaussLegendre(count: number): QuadratureRule {
  const places = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    let x = Math.cos((Math.PI * (k + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let round = 0; round < 100; round++) {
      let [value, previous] = [1, 0];
      for (let n = 1; n <= count; n++) [value, previous] = [((2 * n - 1) * x * value - (n - 1) * previous) / n, value];
      slope = (count * (x * value - previous)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    places[k] = x;
    weights[k] = 2 / ((1 - x * x) * slope * slope);
  }
  return { places, weights };
}
