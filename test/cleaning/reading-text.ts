import { parseQuantity } from "../../src/cleaning/values/parse-quantity.ts";
import {
  type Conventions,
  plainConventions,
  type QuantityKind,
  type QuantityReading,
} from "../../src/cleaning/values/quantity-reading.ts";

/** A reading in one line, so that a table of cases can be read: "45", "about 45", "40 to 50", "2 trays 310", "missing: dash". */
export function readingText(reading: QuantityReading): string {
  switch (reading.kind) {
    case "value":
      return String(reading.value);
    case "approximate":
      return `about ${reading.value}`;
    case "bounds":
      return `${reading.low ?? ""} to ${reading.high ?? ""}`.trim();
    case "pool":
      return `${reading.trays} trays ${reading.value}`;
    case "missing":
      return `missing: ${reading.how}`;
    case "outcome-word":
      return reading.queried ? `${reading.says}?` : reading.says;
    case "ambiguous":
      return `${reading.candidates.map(({ value }) => value).join(" or ")}: ${reading.setting}`;
    case "unreadable":
      return "unreadable";
  }
}

/** One case: the cell, its kind of column, what it says, and what the column agrees on. */
export type ReadingCase = readonly [cell: string, kind: QuantityKind, says: string, conventions?: Partial<Conventions>];

const canonical: Partial<Record<QuantityKind, string>> = { mass: "g", volume: "mL", temperature: "°C" };

/** Reads a case's cell; numbers without a unit are canonical unless the case says otherwise. */
export const readCase = ([cell, kind, , conventions]: ReadingCase): QuantityReading =>
  parseQuantity(cell, kind, {
    ...plainConventions,
    bareUnit: canonical[kind] ?? "",
    bareUnitReason: "the test says so",
    ...conventions,
  });

/** The codes of the rules that spoke about a case's cell. */
export const rulesOfCase = (row: ReadingCase): string[] => readCase(row).changes.map(({ rule }) => rule);
