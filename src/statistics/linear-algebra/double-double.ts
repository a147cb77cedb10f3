/** An unevaluated sum of two numbers that together carry about 32 digits. |low| is at most half a unit in the last place of high. */
export interface DoubleDouble {
  readonly high: number;
  readonly low: number;
}

/** Splits a number into two halves of 26 bits. @source Dekker 1971, Numerische Mathematik 18(3):224-242 */
export const splitter = 134217729;

export const zero: DoubleDouble = { high: 0, low: 0 };
export const one: DoubleDouble = { high: 1, low: 0 };

/**
 * a + b without error.
 * @source the two-sum of Knuth 1969, The Art of Computer Programming 2, and Dekker 1971
 * @example exactSum(1e16, 1) // { high: 1e16, low: 1 }
 */
export function exactSum(a: number, b: number): DoubleDouble {
  const high = a + b;
  const part = high - a;
  return { high, low: a - (high - part) + (b - part) };
}

/**
 * a × b without error, as long as neither is near the ends of the range of numbers.
 * @source Dekker 1971, Numerische Mathematik 18(3):224-242
 * @example exactProduct(3, 4) // { high: 12, low: 0 }
 */
export function exactProduct(a: number, b: number): DoubleDouble {
  const high = a * b;
  const scaledA = splitter * a;
  const highA = scaledA - (scaledA - a);
  const lowA = a - highA;
  const scaledB = splitter * b;
  const highB = scaledB - (scaledB - b);
  const lowB = b - highB;
  return { high, low: lowA * lowB - (high - highA * highB - lowA * highB - highA * lowB) };
}

/** high + low brought back to the normal form, for |high| >= |low|. */
function normal(high: number, low: number): DoubleDouble {
  const sum = high + low;
  return { high: sum, low: low - (sum - high) };
}

/**
 * a + b.
 * @example add({ high: 1e16, low: 1 }, { high: -1e16, low: 0 }) // { high: 1, low: 0 }
 */
export function add(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const highs = exactSum(a.high, b.high);
  const lows = exactSum(a.low, b.low);
  const first = normal(highs.high, highs.low + lows.high);
  return normal(first.high, first.low + lows.low);
}

/**
 * -a.
 * @example negate({ high: 2, low: 1e-17 }) // { high: -2, low: -1e-17 }
 */
export function negate(a: DoubleDouble): DoubleDouble {
  return { high: -a.high, low: -a.low };
}

/**
 * a - b.
 * @example subtract({ high: 3, low: 0 }, { high: 1, low: 0 }) // { high: 2, low: 0 }
 */
export function subtract(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  return add(a, negate(b));
}

/**
 * a × b.
 * @example multiply({ high: 3, low: 0 }, { high: 4, low: 0 }) // { high: 12, low: 0 }
 */
export function multiply(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const product = exactProduct(a.high, b.high);
  return normal(product.high, product.low + (a.high * b.low + a.low * b.high));
}

/**
 * a / b by two corrections of the quotient of the leading parts.
 * @example multiply(divide({ high: 1, low: 0 }, { high: 3, low: 0 }), { high: 3, low: 0 }) // { high: 1, low: 0 }
 */
export function divide(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const first = a.high / b.high;
  const rest = subtract(a, multiply({ high: first, low: 0 }, b));
  const second = rest.high / b.high;
  const last = subtract(rest, multiply({ high: second, low: 0 }, b)).high / b.high;
  const quotient = normal(first, second);
  return normal(quotient.high, quotient.low + last);
}

/**
 * Square root of a value of 0 or more, by one Newton step from the root of the leading part.
 * @example squareRoot({ high: 9, low: 0 }) // { high: 3, low: 0 }
 */
export function squareRoot(a: DoubleDouble): DoubleDouble {
  if (a.high <= 0) return zero;
  const root = Math.sqrt(a.high);
  return normal(root, subtract(a, exactProduct(root, root)).high / (2 * root));
}

/**
 * The nearest ordinary number.
 * @example toNumber({ high: 2, low: 1e-20 }) // 2
 */
export function toNumber(a: DoubleDouble): number {
  return a.high + a.low;
}

/**
 * Sum of the squares of some numbers.
 * @example sumOfSquares([{ high: 3, low: 0 }, { high: 4, low: 0 }]).high // 25
 */
export function sumOfSquares(values: Iterable<DoubleDouble>): DoubleDouble {
  let sum = zero;
  for (const value of values) sum = add(sum, multiply(value, value));
  return sum;
}
