import { betaLogitSlope, betaTails } from "./beta-tails.ts";

/**
 * The point of a beta distribution that cuts off a given lower probability, as x and 1 - x, both with full relative accuracy.
 * @param lower probability at or below the point, and upper = 1 - lower given on its own so that neither loses digits
 * @param a first shape, b second shape, finite and above 0
 * @source Newton's method on the logarithm of the nearer tail against the logit of x, kept inside a bracket (own derivation)
 * @internal
 */
export function betaQuantilePair(lower: number, upper: number, a: number, b: number): { x: number; y: number } {
  const useLower = lower <= upper;
  const target = useLower ? lower : upper;
  const tailAt = (logit: number): { tail: number; slope: number } => {
    const { x, y } = fromLogit(logit);
    const tails = betaTails(x, y, a, b);
    return { tail: useLower ? tails.lower : tails.upper, slope: betaLogitSlope(x, y, a, b) };
  };
  let low = -745;
  let high = 745;
  let logit = Math.log(a / b);
  for (let step = 0; step < 400; step++) {
    const { tail, slope } = tailAt(logit);
    const short = useLower ? tail < target : tail > target;
    if (short) low = logit;
    else high = logit;
    let next = (low + high) / 2;
    // where a tail or the slope is 0 the step is no number, or leads out of the bracket
    const change = ((Math.log(tail / target) * tail) / slope) * (useLower ? -1 : 1);
    const newton = logit + change;
    if (newton > low && newton < high) next = newton;
    if (Math.abs(change) < 1e-15 * Math.max(1, Math.abs(logit))) return fromLogit(newton);
    if (next === logit || high - low < 1e-15 * Math.max(1, Math.abs(logit))) break;
    logit = next;
  }
  return fromLogit(logit);
}

function fromLogit(logit: number): { x: number; y: number } {
  const small = Math.exp(-Math.abs(logit));
  const smaller = small / (1 + small);
  const larger = 1 / (1 + small);
  return logit < 0 ? { x: smaller, y: larger } : { x: larger, y: smaller };
}
