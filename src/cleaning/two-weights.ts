import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { headerParts } from "./columns/header-unit.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { withOtherColumns } from "./other-columns.ts";

const number = "\\d[\\d.,]*\\s*(?:g|gr|grams?|kg|oz|lbs?)?";
const word = "(\\p{L}*)\\s*:?\\s*";
const pair = new RegExp(
  `^${word}(${number})\\s*${word}(?:[/|;+,–-]|[([])\\s*${word}(${number})\\s*${word}[)\\]]?$`,
  "iu",
);
const rowsLookedAt = 50;
/** Fresh mushrooms weigh so much more than dried ones at least. Common practice, no source. */
const leastRatio = 3;

const amount = (text: string): number => Number.parseFloat(text.replace(",", "."));

type State = "fresh" | "dry" | undefined;

/** Whether a word or a header names a fresh or a dry weight. */
function stateOf(text: string, meaningsOf: MeaningsOf): State {
  const fields = text === "" ? [] : meaningsOf(`${text} weight`).map(({ field }) => field);
  const [isFresh, isDry] = [fields.includes("fresh_g"), fields.includes("dry_g")];
  return isFresh === isDry ? undefined : isFresh ? "fresh" : "dry";
}

/** Two weights of a cell, fresh and dry; undefined for any other cell. @param named what the header names, in its order */
function weightsIn(cell: string, named: ReadonlyArray<State>, meaningsOf: MeaningsOf): [string, string] | undefined {
  const found = pair.exec(cell.trim());
  if (found === null) return undefined;
  const [, before = "", first = "", behind = "", ahead = "", second = "", after = ""] = found;
  const one = stateOf(before || behind, meaningsOf) ?? named[0];
  const other = stateOf(ahead || after, meaningsOf) ?? named[1];
  const isSwapped = one === "dry" || other === "fresh";
  if ((one !== "dry" && other !== "dry") || one === other) return undefined;
  const [fresh, dry] = isSwapped ? [second, first] : [first, second];
  const areUnitsAlike = /\p{L}/u.test(fresh) === /\p{L}/u.test(dry);
  return areUnitsAlike && amount(fresh) < leastRatio * amount(dry) ? undefined : [fresh.trim(), dry.trim()];
}

/** The columns of a table that hold two weights a cell, with what their headers name. */
function columnOf(table: RawTable, meaningsOf: MeaningsOf): { column: number; named: State[] } | undefined {
  const headers = table.header.map((header) => {
    const { name, full, units } = headerParts(header);
    const text = units.length > 0 ? name : full;
    const parts = text.split(/\s*(?:[/|+&()]|\band\b)\s*/);
    return (parts.length > 1 ? parts : text.split(" ")).map((part) => stateOf(part, meaningsOf));
  });
  const counts = table.header.map(() => ({ pairs: 0, others: 0 }));
  let rows = 0;
  table.forEachRow((cells) => {
    if (rows++ >= rowsLookedAt) return;
    for (const [column, count] of counts.entries()) {
      const cell = cells[column]!;
      if (!/\d/.test(cell)) continue;
      if (weightsIn(cell, headers[column]!, meaningsOf) === undefined) count.others++;
      else count.pairs++;
    }
  });
  const column = counts.findIndex(({ pairs, others }) => pairs >= 2 && pairs >= others);
  return column < 0 ? undefined : { column, named: headers[column]! };
}

/** Parts a column of cells such as "205/21" under "Fresh/dry g", or "205 (21 dry)", into one of fresh and one of dry weights. */
export function withTwoWeights(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  meaningsOf: MeaningsOf,
): { tables: RawTable[]; issues: Issue[] } {
  return withOtherColumns(tables, (table) => {
    const hasDry = table.header.some((name) => meaningsOf(name).some(({ field }) => field === "dry_g"));
    const found = hasDry ? undefined : columnOf(table, meaningsOf);
    const name = table.header[found?.column ?? 0]!;
    if (found === undefined || pins.some(({ header }) => header === name)) return undefined;
    const { column, named } = found;
    const unit = headerParts(name).units.find(({ kind }) => kind === "mass");
    const [fresh, dry] = ["Fresh weight", "Dry weight"].map((of) => (unit === undefined ? of : `${of} (${unit.name})`));
    return {
      ...{ rule: "two-weights", column, result: `${fresh}, ${dry}` },
      reason: "its cells hold a fresh and a dry weight each: read as two columns",
      header: [...table.header.map((own, at) => (at === column ? fresh! : own)), dry!],
      change(cells) {
        const weights = weightsIn(cells[column]!, named, meaningsOf);
        if (weights !== undefined) cells[column] = weights[0];
        cells.push(weights?.[1] ?? "");
      },
    };
  });
}
