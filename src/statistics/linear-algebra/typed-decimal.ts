import { type DoubleDouble, exactProduct } from "./double-double.ts";

/** A decimal of up to this many digits is kept apart from its neighbours by its double. */
const digitsOfADouble = 15;

/**
 * What a double misses of the decimal it was typed as: 0.1 is stored 5.55e-18 too high, so the answer is -5.55e-18.
 *
 * A measured value is a decimal. Its nearest double is off by up to 1 part in 10^16, which is all the error a
 * badly conditioned fit needs to lose a third of its digits. A value whose shortest decimal has more than 15 digits is
 * the result of arithmetic, not typing, and is taken as stored.
 * @param value a finite number
 * @returns (the typed decimal) - value, 0 for whole numbers and for values that were not typed
 * @source from the definition, with Dekker's exact product
 * @example decimalRemainder(0.1) // -5.551115123125783e-18
 */
export function decimalRemainder(value: number): number {
  if (Number.isInteger(value)) return 0;
  const parts = /^-?(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value));
  if (parts === null) return 0;
  const fraction = parts[2] ?? "";
  const digits = (parts[1]! + fraction).replace(/^0+/, "");
  const places = fraction.length - Number(parts[3] ?? 0);
  // powers of ten up to 10^22 are stored without error
  if (digits.length > digitsOfADouble || places < 1 || places > 22) return 0;
  const power = Number(`1e${places}`);
  const whole = value < 0 ? -Number(digits) : Number(digits);
  const stored = exactProduct(value, power);
  return (whole - stored.high - stored.low) / power;
}

/**
 * The decimal a number was typed as, to 32 digits.
 * @example typedDecimal(0.1) // { high: 0.1, low: -5.551115123125783e-18 }
 */
export function typedDecimal(value: number): DoubleDouble {
  return { high: value, low: decimalRemainder(value) };
}
