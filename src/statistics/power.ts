/** Whole exponents up to this are products; beyond it rounding adds up and logarithms do as well. */
const mostFactors = 64;

/**
 * A power with the same last digit under every version of JavaScript's engine: the language leaves the precision of its own
 * `**` open, and V8's changed between Node 22 and 24, while its exp and log are the same.
 * @param base any number; not below 0 where the exponent is not whole (then NaN)
 * @source ECMA-262, section 6.1.6.1.3 Number::exponentiate: "implementation-approximated"
 * @example power(1.5, 3) // 3.375
 */
export function power(base: number, exponent: number): number {
  if (exponent < 0) return 1 / power(base, -exponent);
  if (!Number.isInteger(exponent) || exponent > mostFactors) {
    const size = Math.exp(exponent * Math.log(Math.abs(base)));
    if (base >= 0) return size;
    return Number.isInteger(exponent) ? (exponent % 2 === 0 ? size : -size) : Number.NaN;
  }
  let product = 1;
  let square = base;
  for (let left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) product *= square;
    square *= square;
  }
  return product;
}
