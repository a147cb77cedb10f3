import { requirePositive } from "../../measures/require-amounts.ts";
import type { CostBase, CostKind, CostLine, Stage } from "../../records/cost-line.ts";
import type { Issue } from "../../records/issue.ts";
import { Memo } from "../../records/memo.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import type { CostDriverQuantity, Shortfall } from "../lines/cost-driver-quantity.ts";
import { lineIssue, repeatedLines, shortfallIssue, uncertainPrices } from "../lines/cost-issues.ts";
import { costPerUse } from "../lines/cost-per-use.ts";
import { growsWithOutput, lineStage } from "../lines/line-stage.ts";
import { monthShares } from "../lines/month-shares.ts";
import { isInForce, priceVersions } from "../lines/price-versions.ts";
import { isWhere } from "../lines/tray-column.ts";
import { costedTrays, driverQuantityOnce } from "./costed-trays.ts";
import { hasReached, type TrayLife } from "./tray-life.ts";

/** One cost line as it was counted. */
export interface CostItem {
  item: string;
  kind: CostKind;
  per: CostBase;
  /** when in a tray's life it is spent */
  stage: Stage;
  ownerLabour: boolean;
  /** whether it is spent tray by tray, or there anyway */
  variable: boolean;
  /** money for one use */
  costPerUse: number;
  /** cost driver quantity of all trays together */
  taken: number;
  line: CostLine;
}

/** Part of a monthly cost that no tray carries. */
export interface UnabsorbedCost {
  item: string;
  month: string;
  amount: number;
  because: "idle" | "no trays";
}

/** What one tray, or pool of trays, cost, line by line. */
export interface TrayCost {
  lines: { item: string; kind: CostKind; stage: Stage; amount: number }[];
  total: number;
  totalWithoutOwnerLabour: number;
}

/** What every tray cost. Money is not rounded; `roundToAddUp` rounds what is shown. */
export interface TrayCosts {
  kind: "costs";
  trays: ReadonlyArray<Tray>;
  lives: ReadonlyArray<TrayLife>;
  settings: Readonly<Settings>;
  items: CostItem[];
  /** amounts[item][tray]: money a line put on a record; of a pool, on all its trays together */
  amounts: Float64Array[];
  /** by tray: the sum of its lines */
  totals: Float64Array;
  unabsorbed: UnabsorbedCost[];
  /** lines per unit sold, which belong to products */
  productLines: CostLine[];
  issues: Issue[];
  /** @throws RangeError if the tray is not one of these */
  of(tray: Tray): TrayCost;
}

const dryingFromSettings = (settings: Readonly<Settings>): CostLine => ({
  item: "drying",
  kind: "energy",
  packPrice: settings.dryingCostPerKgFresh,
  packSize: 1,
  packUnit: "each",
  amount: 1,
  per: "kg fresh",
  stage: "drying",
  ownerLabour: false,
  source: { file: "settings.csv", row: 0 },
});

/**
 * What every tray cost, traceable to the lines of the cost sheet. A cost is put on a tray only if the tray came as far as
 * the stage at which it is spent, and costs per day only for the days it stood: a tray lost early cost less. Dated
 * lines apply by the day of inoculation. What could not be counted is said in `issues`, once per line and reason.
 * @param sharedOver which trays share the cost of their cook or load; every started one unless said otherwise
 * @param memo keeps what does not depend on prices
 * @returns cannot-tell when there are no trays or no cost lines
 * @throws RangeError if a cost line or a setting holds a number outside its range, naming it, or a date does not exist
 */
export function trayCosts(input: {
  trays: ReadonlyArray<Tray>;
  costLines: ReadonlyArray<CostLine>;
  settings: Readonly<Settings>;
  sharedOver?: "started" | "not lost";
  memo?: Memo;
}): TrayCosts | CannotTell {
  const { trays, settings, sharedOver = "started", memo = new Memo() } = input;
  if (trays.length === 0) return cannotTell("there are no trays");
  requirePositive("trayCosts", "settings.jarMillilitres", settings.jarMillilitres);
  requirePositive("trayCosts", "settings.traysPerLoad", settings.traysPerLoad);
  for (const { trayId, traysInPool } of trays) requirePositive("trayCosts", `traysInPool of ${trayId}`, traysInPool);
  const hasDryingLine = input.costLines.some((line) => line.per !== "unit sold" && lineStage(line) === "drying");
  const costLines =
    settings.dryingCostPerKgFresh > 0 && !hasDryingLine
      ? [...input.costLines, dryingFromSettings(settings)]
      : input.costLines;
  if (costLines.length === 0) return cannotTell("there are no cost lines");

  const costed = costedTrays(trays, settings, sharedOver, memo);
  const { lives } = costed;
  const months = trays.map(({ inoculatedOn }) => inoculatedOn?.slice(0, 7));
  const days = trays.map(({ inoculatedOn }, index) => (inoculatedOn === undefined ? undefined : lives[index]!.start));

  const items: CostItem[] = [];
  const amounts: Float64Array[] = [];
  const unabsorbed: UnabsorbedCost[] = [];
  const versions = priceVersions(costLines);
  const issues = [...repeatedLines(costLines), ...uncertainPrices(versions, days)];
  for (const version of versions) {
    const { line } = version;
    if (line.per === "unit sold") continue;
    const perUse = costPerUse(line, settings);
    if (perUse.kind === "cannot-tell") {
      issues.push(
        lineIssue(line, "cost-line-not-counted", "error", `${perUse.reason}; the line is not counted`, perUse.expected),
      );
      continue;
    }
    const stage = lineStage(line);
    let quantity: CostDriverQuantity;
    let counts = (index: number): boolean => isInForce(version, days[index]);
    if (line.per === "month") {
      const shares = monthShares(
        version,
        line,
        trays.length,
        (index) => months[index],
        (index) =>
          hasReached(lives[index]!, stage) && isWhere(trays[index]!, line.onlyWhereColumn, line.onlyWhereValue)
            ? trays[index]!.traysInPool
            : 0,
      );
      quantity = shares.quantity;
      counts = () => true;
      for (const { month, quantity: left, because } of shares.unabsorbed) {
        unabsorbed.push({ item: line.item, month, amount: left * perUse.money, because });
      }
    } else quantity = driverQuantityOnce(costed, line, memo);

    const row = new Float64Array(trays.length);
    let allTaken = 0;
    const short = new Map<Shortfall["reason"], { shortfall: Shortfall; trays: string[] }>();
    for (let index = 0; index < trays.length; index++) {
      if (!counts(index)) continue;
      const taken = quantity(index);
      const count = typeof taken === "number" ? taken : taken.quantity;
      row[index] = perUse.money * count;
      allTaken += count;
      if (typeof taken === "number") continue;
      const entry = short.get(taken.shortfall.reason) ?? { shortfall: taken.shortfall, trays: [] };
      short.set(taken.shortfall.reason, entry);
      entry.trays.push(trays[index]!.trayId);
    }
    const isForNone = !trays.some((tray) => isWhere(tray, line.onlyWhereColumn, line.onlyWhereValue));
    if (isForNone) {
      issues.push(
        lineIssue(
          line,
          "cost-line-for-no-tray",
          "warning",
          "no tray has the value the line is limited to",
          "a column and a value of the harvest sheets",
        ),
      );
    }
    for (const entry of short.values()) issues.push(shortfallIssue(line, entry.shortfall, entry.trays));
    items.push({
      item: line.item,
      kind: line.kind,
      per: line.per,
      stage,
      ownerLabour: line.ownerLabour,
      variable: growsWithOutput(line),
      costPerUse: perUse.money,
      taken: allTaken,
      line,
    });
    amounts.push(row);
  }

  const totals = new Float64Array(trays.length);
  for (const row of amounts) for (let index = 0; index < totals.length; index++) totals[index]! += row[index]!;

  let places: Map<Tray, number> | undefined;
  const of = (tray: Tray): TrayCost => {
    places ??= new Map(trays.map((each, index) => [each, index]));
    const index = places.get(tray);
    if (index === undefined)
      throw new RangeError(`trayCosts.of: the tray must be one that was costed; received ${tray.trayId}`);
    const lines = items.flatMap(({ item, kind, stage }, row) => {
      const amount = amounts[row]![index]!;
      return amount === 0 ? [] : [{ item, kind, stage, amount }];
    });
    const owner = items.reduce((sum, { ownerLabour }, row) => sum + (ownerLabour ? amounts[row]![index]! : 0), 0);
    return { lines, total: totals[index]!, totalWithoutOwnerLabour: totals[index]! - owner };
  };
  const productLines = costLines.filter(({ per }) => per === "unit sold");
  return { kind: "costs", trays, lives, settings, items, amounts, totals, unabsorbed, productLines, issues, of };
}
