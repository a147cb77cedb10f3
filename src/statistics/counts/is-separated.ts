import { dot, ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { orthonormalColumns } from "../linear-algebra/orthonormal-columns.ts";
import { columnsOf, dependentBelow, type LogisticDesign } from "./logistic-design.ts";

/**
 * Whether some combination of the columns tells the outcomes of a logistic regression apart, wholly or in part, so that
 * ordinary estimates run off to infinity.
 * @throws RangeError if a column follows from the others
 * @source Albert and Anderson 1984, Biometrika 71(1):1-10; the search for a separating direction as a nonnegative
 *   least-squares problem is by duality (own derivation), solved after Lawson and Hanson 1974, Solving Least Squares
 *   Problems, chapter 23, p. 160
 * @internal
 */
export function isSeparated(routine: string, design: LogisticDesign): boolean {
  const { basis, collinear } = orthonormalColumns(columnsOf(design), dependentBelow);
  if (collinear.length > 0) {
    const name = design.names[collinear[0]!.column];
    throw new RangeError(`${routine}: the column "${name}" must not follow from the others; received one that does`);
  }
  // a row pointing where successes lie, one pointing away from it where failures lie; a mixed row gives both
  const pointers: Float64Array[] = [];
  design.rows.forEach((_, index) => {
    const row = Float64Array.from(basis, (column) => column[index]!);
    const length = Math.hypot(...row);
    const unit = row.map((value) => value / length);
    if (design.successes[index]! > 0) pointers.push(unit);
    if (design.successes[index]! < design.trials[index]!) pointers.push(unit.map((value) => -value));
  });
  const direction = separatingDirection(pointers);
  return direction !== undefined && pointers.some((pointer) => dot(pointer, direction) >= 1e-9);
}

/**
 * A direction along which no pointer looks backwards and at least one looks forwards, or undefined if there is none: the
 * shortest vector of the form sum of (1 + u) times pointer, with every u of 0 or more, unless that vector is 0.
 */
function separatingDirection(pointers: ReadonlyArray<Float64Array>): Float64Array | undefined {
  const width = pointers[0]!.length;
  const target = new Float64Array(width);
  for (const pointer of pointers)
    pointer.forEach((value, column) => {
      target[column]! -= value;
    });
  const scale = Math.hypot(...target);
  if (scale < 1e-10 * pointers.length) return undefined;
  const u = new Float64Array(pointers.length);
  const active: number[] = [];
  const residualOf = (): Float64Array => {
    const rest = Float64Array.from(target);
    for (const index of active)
      pointers[index]!.forEach((value, column) => {
        rest[column]! -= u[index]! * value;
      });
    return rest;
  };
  let residual = residualOf();
  for (let round = 0; round < 50 * (width + 1) + 10 * pointers.length; round++) {
    let best = -1;
    let steepest = 1e-10 * scale;
    pointers.forEach((pointer, index) => {
      if (active.includes(index)) return;
      const slope = dot(pointer, residual);
      if (slope > steepest) [best, steepest] = [index, slope];
    });
    if (best < 0) break;
    active.push(best);
    for (;;) {
      const solution = leastSquares(
        active.map((index) => pointers[index]!),
        target,
      );
      if (solution === undefined) {
        // the newest pointer follows from the others: leave it out
        u[active.pop()!] = 0;
        break;
      }
      if (solution.every((value) => value > 0)) {
        active.forEach((index, place) => {
          u[index] = solution[place]!;
        });
        break;
      }
      let share = 1;
      active.forEach((index, place) => {
        if (solution[place]! <= 0) share = Math.min(share, u[index]! / (u[index]! - solution[place]!));
      });
      active.forEach((index, place) => {
        u[index]! += share * (solution[place]! - u[index]!);
      });
      for (let place = active.length - 1; place >= 0; place--) {
        if (u[active[place]!]! <= 1e-14 * (1 + Math.max(...solution.map(Math.abs)))) u[active.splice(place, 1)[0]!] = 0;
      }
      if (active.length === 0) break;
    }
    residual = residualOf();
  }
  const length = Math.hypot(...residual);
  if (length < 1e-9 * scale) return undefined;
  const direction = residual.map((value) => -value / length);
  const separates = pointers.every((pointer) => dot(pointer, direction) > -1e-7);
  return separates ? direction : undefined;
}

function leastSquares(columns: ReadonlyArray<Float64Array>, target: Float64Array): number[] | undefined {
  const factor = orthogonalFactor(
    ordinary,
    columns.map((column) => column.slice()),
    dependentBelow,
  );
  return factor.dependent.length > 0 ? undefined : factor.solve(factor.rotate(target));
}
