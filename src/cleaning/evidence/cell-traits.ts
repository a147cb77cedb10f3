import { unitNamed } from "../../records/words/units.ts";
import { asSum, isList } from "../rules/list-in-cell.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import { plainConventions, type QuantityKind } from "../values/quantity-reading.ts";
import { decimalEvidence } from "./decimal-evidence.ts";

/** What one cell of numbers tells about its column. */
export interface CellTraits {
  decimalMark: "" | "." | ",";
  /** the number, when it stands without a unit */
  bare?: number;
  /** name of the unit the cell states */
  unit?: string;
  /** whether it is several amounts with commas between them */
  isList?: boolean;
}

const unitBehind = /\d[\s.]*\s*((?:fl\.?\s*)?[a-zµ°%][a-zµ°.%\s]*?)\s*[)?]*$/i;

/** What a cell tells about its column: the decimal mark it shows, and its unit or that it has none. */
export function cellTraits(text: string, kind: QuantityKind): CellTraits {
  if (isList(text)) return { ...cellTraits(asSum(text), kind), isList: true };
  const decimalMark = decimalEvidence(text);
  const behind = unitBehind.exec(text);
  const unit = unitNamed(behind?.[1] ?? "", kind);
  if (unit !== undefined && !Number.isNaN(unit.factor)) return { decimalMark, unit: unit.name };
  // "64 deg" is a number without its scale
  const plain = unit === undefined ? text : text.slice(0, behind!.index + 1);
  let bare = 0;
  // "5 + 5" is ten of what one of them is
  for (const part of plain.split(/(?<=\d\s*)\+/)) {
    const reading = parseQuantity(part, "number", plainConventions);
    if (reading.kind !== "value" && reading.kind !== "approximate") return { decimalMark };
    bare += reading.value;
  }
  return { decimalMark, bare };
}
