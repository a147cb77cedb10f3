import type { Book } from "../../records/book.ts";
import { type CostLine, costColumns } from "../../records/cost-line.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";

type CostKey = (typeof costColumns)[number];

const labels: Readonly<Record<CostKey, string>> = {
  item: "Item",
  kind: "Kind",
  pack_price: "Price of a pack",
  own_share_pct: "Your share of it",
  pack_size: "A pack holds",
  pack_unit: "Unit",
  amount: "One use",
  amount_unit: "Its unit",
  per: "Per",
  watts: "Power",
  hours: "Hours on",
  duty_pct: "Share of time on",
  uses: "Lasts uses",
  life_years: "Lasts years",
  uses_per_year: "Uses a year",
  salvage: "Got back at the end",
  breakage_pct: "Break in each use",
  expands_to_jars: "Makes jars",
  owner_labour: "Own time",
  only_where_column: "Only where column",
  only_where_value: "reads",
  stage: "Spent at",
  from_date: "From",
  pack_price_low: "Price at least",
  pack_price_high: "Price at most",
  normal_trays_per_month: "Trays in a normal month",
  note: "Note",
};

const texts: ReadonlySet<string> = new Set([
  ...["item", "kind", "pack_unit", "amount_unit", "per", "owner_labour", "only_where_column", "only_where_value"],
  ...["stage", "from_date", "note"],
]);

const choices: Partial<Record<CostKey, ReadonlyArray<string>>> = {
  kind: ["ingredient", "culture", "consumable", "reusable", "energy", "labour", "space", "overhead"],
  per: [
    ...["tray", "good tray", "cook", "load", "jar", "inoculum mL", "supplement g", "grain g", "shelf day"],
    ...["kg fresh", "kg dried", "unit sold", "month"],
  ],
  owner_labour: ["yes", "no"],
  stage: ["filling", "inoculation", "incubation", "fruiting", "harvest", "drying"],
};

const number = (value: number | undefined): string => (value === undefined ? "" : String(value));
/** A share as a percentage with its sign, which leaves no doubt. */
export const percentText = (share: number | undefined): string =>
  share === undefined ? "" : `${Number((share * 100).toPrecision(14))} %`;

/** A cost line as it stands in costs.csv. */
export function costCells(line: CostLine, hasRatePrice: boolean): string[] {
  const { watts, hours, duty } = line;
  const kWh = watts === undefined || hours === undefined ? undefined : (watts * hours * (duty ?? 1)) / 1000;
  const followsPower = kWh !== undefined && Math.abs(kWh - line.amount) <= 1e-9 * Math.max(kWh, line.amount);
  const cells: Record<CostKey, string> = {
    item: line.item,
    kind: line.kind,
    pack_price: hasRatePrice ? "" : String(line.packPrice),
    // the price of a line is that of the share
    own_share_pct: "",
    pack_size: hasRatePrice ? "" : String(line.packSize),
    pack_unit: hasRatePrice ? "" : line.packUnit,
    amount: followsPower ? "" : String(line.amount),
    amount_unit: followsPower ? "" : line.packUnit,
    per: line.per,
    watts: number(watts),
    hours: number(hours),
    duty_pct: percentText(duty),
    uses: number(line.uses),
    life_years: number(line.lifeYears),
    uses_per_year: number(line.usesPerYear),
    salvage: number(line.salvage),
    breakage_pct: percentText(line.breakage),
    expands_to_jars: number(line.expandsToJars),
    owner_labour: line.ownerLabour ? "yes" : "",
    only_where_column: line.onlyWhereColumn ?? "",
    only_where_value: line.onlyWhereValue ?? "",
    stage: line.stage ?? "",
    from_date: line.fromDate ?? "",
    pack_price_low: number(line.packPriceLow),
    pack_price_high: number(line.packPriceHigh),
    normal_trays_per_month: number(line.normalTraysPerMonth),
    note: line.note ?? "",
  };
  return costColumns.map((key) => cells[key]);
}

const columns: LiveColumn[] = costColumns.map((key) => ({
  key,
  label: labels[key],
  unit: key === "watts" ? "W" : "",
  isNumber: !texts.has(key),
  ...(choices[key] === undefined ? {} : { choices: choices[key] }),
  ...(key === "from_date" ? { isDate: true } : {}),
}));

/** Whether a line's price is the owner's rate of the settings, by what the log says of its row. */
function takesOwnerRate(line: CostLine, issues: Book["issues"]): boolean {
  const { file, row } = line.source;
  return issues.some((issue) => issue.rule === "owner-rate" && issue.file === file && issue.row === row);
}

/** The cost lines of a book as the sheet costs.csv; without a line where the book has none. */
export function costSheet({ costLines = [], issues }: Book): LiveSheet {
  const rows = costLines.map((line) => costCells(line, takesOwnerRate(line, issues)));
  return { name: "costs", title: "Cost lines", columns, rows };
}
