import { cholesky } from "../linear-algebra/cholesky.ts";
import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { type OrthonormalColumns, removeParts } from "../linear-algebra/orthonormal-columns.ts";
import { solveUpper } from "../linear-algebra/triangle.ts";
import type { AlikeRows } from "./alike-rows.ts";
import type { IntervalSample } from "./interval-sample.ts";
import { type LikelihoodPoint, weibullLikelihood, weibullSample } from "./weibull-likelihood.ts";

const mostSteps = 100;

/** A rough time for each row, to start from. */
function roughTimes(sample: IntervalSample): Float64Array {
  return Float64Array.from(sample.lower, (lower, i) => {
    const upper = sample.upper[i]!;
    const middle = upper === Number.POSITIVE_INFINITY ? lower : (lower + upper) / 2;
    return middle > 0 ? Math.log(middle) : 0;
  });
}

/**
 * Maximum of the Weibull likelihood by Newton steps, each halved until the likelihood rises.
 * @param alike rows with the same values of the columns
 * @param names of the columns, for the message when there is no maximum
 * @returns parameters: location along each perpendicular column, then the slope
 * @throws RangeError if the likelihood keeps rising without end
 * @internal
 */
export function maximiseWeibull(
  routine: string,
  sample: IntervalSample,
  columns: OrthonormalColumns,
  alike: AlikeRows,
  names: ReadonlyArray<string>,
  slopeFree: boolean,
): { parameters: Float64Array; point: LikelihoodPoint } {
  const { basis, triangle } = columns;
  const size = basis.length;
  // the likelihood is concave, so any start will do that is of the times' size
  let parameters: Float64Array = Float64Array.of(...removeParts(roughTimes(sample), basis), 1);
  const ready = weibullSample(sample, basis, alike);
  let point = weibullLikelihood(ready, parameters, slopeFree);
  if (point === undefined) throw new RangeError(`${routine}: the times must be of a size the computer can hold`);
  let drift = new Array<number>(size).fill(0);
  for (let step = 0; step < mostSteps; step++) {
    const move = cholesky(point.information)?.solve(point.gradient);
    if (move === undefined) break;
    drift = solveUpper(ordinary, triangle, move.slice(0, size));
    const gain = move.reduce((sum, value, k) => sum + value * point!.gradient[k]!, 0);
    const largest = move.reduce((max, value, k) => Math.max(max, Math.abs(value) / (1 + Math.abs(parameters[k]!))), 0);
    let next: { trial: Float64Array; reached: LikelihoodPoint } | undefined;
    for (let share = 1; share > 1e-10 && next === undefined; share /= 2) {
      const trial = parameters.map((value, k) => value + share * (move[k] ?? 0));
      const reached = weibullLikelihood(ready, trial, slopeFree);
      if (reached !== undefined && reached.value >= point.value - 1e-14 * Math.abs(point.value))
        next = { trial, reached };
    }
    if (next === undefined) {
      if (largest < 1e-8) return { parameters, point };
      break;
    }
    [parameters, point] = [next.trial, next.reached];
    if (gain < 1e-18 * (1 + Math.abs(point.value)) && largest < 1e-8) return { parameters, point };
  }
  const lengths = triangle.map((_, k) => Math.sqrt(triangle.reduce((sum, row) => sum + row[k]! ** 2, 0)));
  // the column along which the last step still moved most, measured by what it did to the fitted values
  let worst = 0;
  for (let k = 1; k < size; k++) {
    if (Math.abs(drift[k]!) * lengths[k]! > Math.abs(drift[worst]!) * lengths[worst]! || worst === 0) worst = k;
  }
  throw new RangeError(
    `${routine}: the likelihood must have a maximum, but it keeps rising as the effect of "${names[worst]!}" grows: ` +
      "a group without a single event, or times that are all alike",
  );
}
