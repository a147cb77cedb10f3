import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { withOtherColumns } from "./other-columns.ts";

/** Rows of one cook each, with how many of its trays were started and how many picked. */
interface Counted {
  started: number;
  picked: number;
}

/** More trays than this are of no small grower's one cook. Common practice, no source. */
const mostTrays = 60;

function countsIn(table: RawTable, pins: ReadonlyArray<ColumnPin>, meaningsOf: MeaningsOf): Counted | undefined {
  const meant = table.header.map((name) =>
    pins.some(({ header }) => header === name) ? [] : meaningsOf(name).map(({ field }) => field),
  );
  const naming = (...fields: string[]): number[] =>
    meant.flatMap((one, at) => (one.some((field) => fields.includes(field)) ? [at] : []));
  // "Trays" counts, where numbers stand in it
  if (meant.some((one) => one[0] === "tray_id" && !one.includes("trays_in_pool"))) return undefined;
  const counts = new Map(naming("trays_in_pool", "inoculated_on", "harvested_on").map((at) => [at, [] as number[]]));
  const [cook = -1] = naming("batch", "load");
  const cooks = new Set<string>();
  let rows = 0;
  table.forEachRow((cells) => {
    rows++;
    cooks.add(cells[cook] ?? "");
    for (const [at, own] of counts) own.push(/^\s*\d{1,2}\s*$/.test(cells[at]!) ? Number(cells[at]) : Number.NaN);
  });
  // a cook in several rows has one for each flush
  if (rows < 2 || (cook >= 0 && cooks.size < rows)) return undefined;
  const areCounts = ([, own]: [number, number[]]): boolean => own.every((one) => one >= 0 && one <= mostTrays);
  const [first, second, third] = [...counts].filter(areCounts);
  if (first === undefined || second === undefined || third !== undefined) return undefined;
  const isPicked = ([at]: [number, number[]]): boolean => meant[at]!.includes("harvested_on");
  if (isPicked(first) || !isPicked(second)) return undefined;
  const within = second[1].every((picked, row) => picked <= first[1][row]!);
  // of most cooks more than half were picked; a flush's number is seldom as high
  const most = second[1].filter((picked, row) => 2 * picked > first[1][row]!).length;
  return within && 2 * most > rows ? { started: first[0], picked: second[0] } : undefined;
}

/** Reads "Started" 6 beside "Harvested" 5, each a count of the trays of a cook, as 5 of 6 trays picked. */
export function withPickedOfStarted(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  meaningsOf: MeaningsOf,
): { tables: RawTable[]; issues: Issue[] } {
  return withOtherColumns(tables, (table) => {
    const found = countsIn(table, pins, meaningsOf);
    if (found === undefined) return undefined;
    const { started, picked } = found;
    return {
      ...{ rule: "picked-of-started", column: picked, result: "Trays picked" },
      reason: `“${table.header[started]}” and “${table.header[picked]}” count a cook's trays: those not picked are lost`,
      header: table.header.map((name, at) => (at === started ? "Trays picked" : at === picked ? "" : name)),
      change(cells) {
        cells[started] = `${cells[picked]!.trim()} of ${cells[started]!.trim()}`;
        cells[picked] = "";
      },
    };
  });
}
