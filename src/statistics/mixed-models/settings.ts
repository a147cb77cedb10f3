import type { OrthonormalColumns } from "../linear-algebra/orthonormal-columns.ts";
import { estimableWeights } from "./estimable-weights.ts";
import type { FixedColumn, FixedDesign } from "./fixed-design.ts";

/** Where to stand in the design: a level for some factors, a value for some numbers. */
export interface Setting {
  /** level of each factor held; the others are averaged over their levels with equal weights */
  levels: Readonly<Record<string, string>>;
  /** value of each number term held, powers of it following; the others stay at their mean over the observations */
  at: Readonly<Record<string, number>>;
}

/** Value a design column takes at a setting. */
function columnAt(design: FixedDesign, column: FixedColumn, { levels, at }: Setting): number {
  let value = 1;
  for (const [factor, level] of column.levels) {
    if (Object.hasOwn(levels, factor)) value *= levels[factor] === level ? 1 : 0;
    else value /= design.factorLevels.get(factor)!.length;
  }
  for (const name of column.numbers) {
    const { base, mean, exponent } = design.numberTerms.get(name)!;
    value *= (Object.hasOwn(at, base) ? at[base]! : mean) ** exponent;
  }
  return value;
}

/**
 * Weights over the kept coefficients that give the value a model expects at a setting.
 * @throws RangeError if a factor, level or number is not in the design, or the cell needed holds no observation
 * @internal
 */
export function weightsAt(
  routine: string,
  design: FixedDesign,
  columns: OrthonormalColumns,
  setting: Setting,
): number[] {
  for (const [factor, level] of Object.entries(setting.levels)) {
    if (!design.factorLevels.get(factor)?.includes(level)) {
      throw new RangeError(
        `${routine}: the setting must name a factor and level of the model; received ${factor}: ${level}`,
      );
    }
  }
  for (const [name, value] of Object.entries(setting.at)) {
    if (design.numberTerms.get(name)?.base !== name || !Number.isFinite(value)) {
      throw new RangeError(`${routine}: "at" must give a finite number for a number term; received ${name} = ${value}`);
    }
  }
  const weights = estimableWeights(design, columns, (column) => columnAt(design, column, setting));
  if (weights === undefined) {
    const place = Object.values(setting.levels).join(", ");
    throw new RangeError(`${routine}: the value at ${place} has no estimate: a cell it needs holds no observation`);
  }
  return weights;
}
