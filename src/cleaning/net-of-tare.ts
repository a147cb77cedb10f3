import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { headerParts } from "./columns/header-unit.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { grossWeight } from "./columns/weights-in-doubt.ts";
import { withOtherColumns } from "./other-columns.ts";
import { namesContainer } from "./rules/container-included.ts";

const amount = /^\d+(?:([.,])(\d+))?\s*(?:g|gr|grams?)?$/i;

/** What is left of a weight without its container's, in the decimals of the two; undefined where either is no plain number. */
function net(gross: string, tare: string): string | undefined {
  const [whole, empty] = [amount.exec(gross.trim()), amount.exec(tare.trim())];
  if (whole === null || empty === null) return undefined;
  const left = [gross, tare].map((text) => Number.parseFloat(text.replace(",", ".")));
  const decimals = Math.max(whole[2]?.length ?? 0, empty[2]?.length ?? 0);
  const text = (left[0]! - left[1]!).toFixed(decimals);
  return left[0]! < left[1]! ? undefined : text.replace(".", whole[1] ?? empty[1] ?? ".");
}

/** A column of weights with their container, beside one of what the container weighs and none without it, becomes their difference. */
export function withNetOfTare(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  meaningsOf: MeaningsOf,
): { tables: RawTable[]; issues: Issue[] } {
  return withOtherColumns(tables, ({ header }) => {
    const fields = header.map((name) => meaningsOf(name).map(({ field }) => field));
    const tares = header.flatMap((name, at) => (namesContainer(name) && !fields[at]!.includes("tray_id") ? [at] : []));
    const gross = header.map((name) => grossWeight(name, true));
    const [tare, column] = [tares[0], gross.findIndex((field) => field !== undefined)];
    if (tare === undefined || column < 0 || tares.length > 1 || gross.filter(Boolean).length > 1) return undefined;
    const isNet = (at: number): boolean => at !== tare && at !== column && fields[at]!.includes(gross[column]!);
    const [unit = "", other = ""] = [column, tare].map(
      (at) => headerParts(header[at]!).units.find(({ kind }) => kind === "mass")?.name,
    );
    const isPinned = pins.some((pin) => pin.header === header[column] || pin.header === header[tare]);
    if (unit !== other || isPinned || header.some((_, at) => isNet(at))) return undefined;
    const name = `${gross[column] === "dry_g" ? "Dry" : "Fresh"} weight${unit === "" ? "" : ` (${unit})`}`;
    return {
      ...{ rule: "net-of-tare", column, result: name },
      reason: `weighed with its container: “${header[tare]}” is taken off`,
      header: header.map((own, at) => (at === column ? name : own)),
      change(cells) {
        const weight = cells[column]!;
        if (/\d/.test(weight)) cells[column] = net(weight, cells[tare]!) ?? `${weight} incl. tare`;
      },
    };
  });
}
