import { toNumber } from "../linear-algebra/double-double.ts";
import type { DoubleDoubleFactor } from "../linear-algebra/double-double-factor.ts";
import type { DesignColumn } from "./design-columns.ts";
import { interceptName } from "./model-term.ts";

/** A column left out of a model because the columns before it already say the same. */
export interface DroppedColumn {
  name: string;
  term: string;
  /** in words: "equals 2 × dose", "equals intercept - cook: B", "is 0 in every row" */
  because: string;
}

/** Smaller multiples are rounding of a column that does not take part. */
const negligible = 1e-9;

/**
 * Says in words what each dependent column equals.
 * @internal
 */
export function droppedColumns(columns: ReadonlyArray<DesignColumn>, factor: DoubleDoubleFactor): DroppedColumn[] {
  return factor.dependent.map(({ column, multiples }) => {
    const parts = multiples
      .map((multiple, k) => ({ multiple: toNumber(multiple), name: columns[factor.kept[k]!]!.name }))
      .filter(({ multiple }) => Math.abs(multiple) > negligible);
    const { name, term } = columns[column]!;
    if (parts.length === 0) return { name, term, because: "is 0 in every row" };
    if (parts.length === 1 && parts[0]!.name === interceptName) {
      return { name, term, because: `is ${rounded(parts[0]!.multiple)} in every row` };
    }
    const sum = parts.map(({ multiple, name: part }, k) => {
      const size = rounded(Math.abs(multiple));
      const product = size === "1" ? part : `${size} × ${part}`;
      if (k === 0) return multiple < 0 ? `-${product}` : product;
      return `${multiple < 0 ? "-" : "+"} ${product}`;
    });
    return { name, term, because: `equals ${sum.join(" ")}` };
  });
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(6)));
}
