import type { RowSource } from "./tray.ts";

/** What a cost line is for. */
export type CostKind =
  | "ingredient"
  | "culture"
  | "consumable"
  | "reusable"
  | "energy"
  | "labour"
  | "space"
  | "overhead";

/** What one use of a cost line goes to; a cost is shared over what that covers. */
export type CostBase =
  | "tray"
  | "good tray"
  | "cook"
  | "load"
  | "jar"
  | "inoculum mL"
  | "supplement g"
  | "grain g"
  | "shelf day"
  | "kg fresh"
  | "kg dried"
  | "unit sold"
  | "month";

/** How far into its life a tray has to come before a cost has been spent on it. */
export type Stage = "filling" | "inoculation" | "incubation" | "fruiting" | "harvest" | "drying";

/** One row of costs.csv: what a thing costs, how much of it is used, and per what. Money in the book's currency. */
export interface CostLine {
  item: string;
  kind: CostKind;
  /** price of one pack: of a bag, a bottle, an hour, a kWh, a month, a piece of equipment; the share of it that is for the trays */
  packPrice: number;
  /** how much a pack holds, in packUnit; above 0 */
  packSize: number;
  /** g, mL, each, hour, kWh, month, or day */
  packUnit: CostUnit;
  /** how much of it one use uses, in packUnit after conversion */
  amount: number;
  per: CostBase;
  /** for energy given as watts x hours x duty; amount is then the kWh that follow */
  watts?: number;
  hours?: number;
  /** share of the time it draws power, 0 to 1 */
  duty?: number;
  /** uses before a reusable is replaced */
  uses?: number;
  /** straight-line life in years, with `usesPerYear`, instead of `uses` */
  lifeYears?: number;
  usesPerYear?: number;
  /** money recovered when a reusable is replaced */
  salvage?: number;
  /** share of reusables that break in each use, 0 to 1 */
  breakage?: number;
  /** jars of culture one pack makes when it is expanded */
  expandsToJars?: number;
  /** whether this is the owner's own time */
  ownerLabour: boolean;
  /** the line applies only to trays whose column `onlyWhereColumn` (canonical key or free header) reads `onlyWhereValue` */
  onlyWhereColumn?: string;
  onlyWhereValue?: string;
  /** when in the tray's life the cost is spent; absent: by the kind and base */
  stage?: Stage;
  /** the price applies to trays inoculated on or after this ISO date; lines of one item with later dates replace earlier ones */
  fromDate?: string;
  /** the pack price's own range for the sensitivity table */
  packPriceLow?: number;
  packPriceHigh?: number;
  /** per month of normal capacity: how many trays the overhead is meant to carry */
  normalTraysPerMonth?: number;
  note?: string;
  source: RowSource;
}

/** Canonical units of a cost line's pack and amount. */
export type CostUnit = "g" | "mL" | "each" | "hour" | "kWh" | "month" | "day";

/** The headers of costs.csv in the order a blank sheet shows them. */
export const costColumns = [
  "item",
  "kind",
  "pack_price",
  "pack_size",
  "pack_unit",
  "amount",
  "amount_unit",
  "per",
  "watts",
  "hours",
  "duty_pct",
  "uses",
  "life_years",
  "uses_per_year",
  "salvage",
  "breakage_pct",
  "expands_to_jars",
  "owner_labour",
  "only_where_column",
  "only_where_value",
  "stage",
  "from_date",
  "pack_price_low",
  "pack_price_high",
  "normal_trays_per_month",
  "own_share_pct",
  "note",
] as const;
