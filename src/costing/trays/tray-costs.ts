import { requirePositive } from "../../measures/require-amounts.ts";
import { appendAll } from "../../records/append-all.ts";
import type { CostBase, CostKind, CostLine, Stage } from "../../records/cost-line.ts";
import type { Issue } from "../../records/issue.ts";
import { Memo } from "../../records/memo.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { type CostedTrays, isForTray, type Shortfall } from "../lines/cost-driver-quantity.ts";
import { lineIssue, shortfallIssue, uncertainPrices } from "../lines/cost-issues.ts";
import { costPerUse } from "../lines/cost-per-use.ts";
import { growsWithOutput, lineStage } from "../lines/line-stage.ts";
import { doubtOfLine, doubtOfUnread, type MoneyDoubt } from "../lines/money-doubt.ts";
import { monthShares } from "../lines/month-shares.ts";
import { isInForce, type PriceVersion, priceVersions } from "../lines/price-versions.ts";
import { isWhere, trayColumn } from "../lines/tray-column.ts";
import { costedTrays, driverQuantityOnce } from "./costed-trays.ts";
import type { TrayLife } from "./tray-life.ts";

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
  /** every cost line, those per unit sold among them, which belong to products */
  costLines: ReadonlyArray<CostLine>;
  /** what is missing from this money or doubtful in it */
  doubts: MoneyDoubt[];
  issues: Issue[];
}

/** share of the trays that may lack what a line is counted by before the line is called counted in part */
const mostLacking = 0.02;

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

/** One line as it is counted over the trays, and everything said of it. */
interface CountedLine {
  item: CostItem;
  amounts: Float64Array;
  unabsorbed: UnabsorbedCost[];
  shortfalls: { shortfall: Shortfall; trays: string[] }[];
}

/** The trays and what about them every line asks for. */
interface Counting {
  costed: CostedTrays;
  memo: Memo;
  months: (string | undefined)[];
  days: (number | undefined)[];
}

/** How much of a line each tray takes, which trays the price is in force for, and what no tray takes. */
function driverOf({ costed, memo, months, days }: Counting, version: PriceVersion) {
  const { line } = version;
  const { trays } = costed;
  if (line.per !== "month") {
    return {
      quantity: driverQuantityOnce(costed, line, memo),
      counts: (index: number) => isInForce(version, days[index]),
      unabsorbed: [],
    };
  }
  const isFor = isForTray(costed, line);
  const shares = monthShares(
    version,
    line,
    trays.length,
    (index) => months[index],
    (index) => (isFor(index) ? trays[index]!.traysInPool : 0),
  );
  return { quantity: shares.quantity, counts: () => true, unabsorbed: shares.unabsorbed };
}

function countLine(counting: Counting, version: PriceVersion, perUse: number): CountedLine {
  const { line } = version;
  const { trays } = counting.costed;
  const { quantity, counts, unabsorbed } = driverOf(counting, version);
  const amounts = new Float64Array(trays.length);
  let allTaken = 0;
  const short = new Map<Shortfall["reason"], { shortfall: Shortfall; trays: string[] }>();
  for (let index = 0; index < trays.length; index++) {
    if (!counts(index)) continue;
    const taken = quantity(index);
    const count = typeof taken === "number" ? taken : taken.quantity;
    amounts[index] = perUse * count;
    allTaken += count;
    if (typeof taken === "number") continue;
    const entry = short.get(taken.shortfall.reason) ?? { shortfall: taken.shortfall, trays: [] };
    short.set(taken.shortfall.reason, entry);
    entry.trays.push(trays[index]!.trayId);
  }
  return {
    item: {
      item: line.item,
      kind: line.kind,
      per: line.per,
      stage: lineStage(line),
      ownerLabour: line.ownerLabour,
      variable: growsWithOutput(line),
      costPerUse: perUse,
      taken: allTaken,
      line,
    },
    amounts,
    unabsorbed: unabsorbed.map(({ month, quantity: left, because }) => ({
      item: line.item,
      month,
      amount: left * perUse,
      because,
    })),
    shortfalls: [...short.values()],
  };
}

/** What is said of a line that is for some trays only, and none of them is one of those. */
function limitedToNoTray(line: CostLine, trays: ReadonlyArray<Tray>): { issues: Issue[]; doubts: MoneyDoubt[] } {
  const { onlyWhereColumn: column, onlyWhereValue: value } = line;
  if (column === undefined || trays.some((tray) => isWhere(tray, column, value))) return { issues: [], doubts: [] };
  const isRecorded = trays.some((tray) => trayColumn(tray, column) !== undefined);
  const reason = isRecorded
    ? "no tray has the value the line is limited to"
    : `no tray has anything recorded in the column the line is limited by, ${column}`;
  return {
    issues: [lineIssue(line, "cost-line-for-no-tray", "warning", reason, "a column and a value of the harvest sheets")],
    doubts: [doubtOfLine(line, reason, isRecorded ? "doubtful" : "left out")],
  };
}

/** The cost lines to count: those of the sheet, and drying at the settings' price where no line is for it. */
function linesToCount(costLines: ReadonlyArray<CostLine>, settings: Readonly<Settings>): ReadonlyArray<CostLine> {
  const hasDryingLine = costLines.some((line) => line.per !== "unit sold" && lineStage(line) === "drying");
  return settings.dryingCostPerKgFresh > 0 && !hasDryingLine ? [...costLines, dryingFromSettings(settings)] : costLines;
}

/** What a line lacks on some trays: said, and doubted where it is missing on many. */
function sayShortfalls(line: CostLine, shortfalls: CountedLine["shortfalls"], trays: number) {
  return {
    issues: shortfalls.map(({ shortfall, trays: lacking }) => shortfallIssue(line, shortfall, lacking)),
    doubts: shortfalls
      .filter(
        ({ shortfall, trays: lacking }) => shortfall.severity === "warning" && lacking.length > mostLacking * trays,
      )
      .map(({ shortfall, trays: lacking }) =>
        lacking.length < trays
          ? doubtOfLine(line, shortfall.reason, "in part", { trays: lacking.length })
          : doubtOfLine(line, shortfall.reason, "left out", { record: shortfall.expected }),
      ),
  };
}

function columnSums(rows: ReadonlyArray<Float64Array>, columns: number): Float64Array {
  const sums = new Float64Array(columns);
  for (const row of rows) for (let index = 0; index < columns; index++) sums[index]! += row[index]!;
  return sums;
}

/**
 * What every tray cost, traceable to the lines of the cost sheet. A cost is put on a tray only if the tray came as far as
 * the stage at which it is spent, and costs per day only for the days it stood: a tray lost early cost less. Dated
 * lines apply by the day of inoculation. What could not be counted is said in `issues`, once per line and reason, and in
 * `doubts`, with the rows that could not be read.
 * @param sharedOver which trays share the cost of their cook or load; every started one unless said otherwise
 * @param memo keeps what does not depend on prices
 * @param unread rows of costs.csv and products.csv that are left out or doubtful
 * @returns cannot-tell when there are no trays or no cost lines
 * @throws RangeError if a cost line or a setting holds a number outside its range, naming it, or a date does not exist
 */
export function trayCosts(input: {
  trays: ReadonlyArray<Tray>;
  costLines: ReadonlyArray<CostLine>;
  settings: Readonly<Settings>;
  sharedOver?: "started" | "not lost";
  unread?: ReadonlyArray<UnreadMoney>;
  memo?: Memo;
}): TrayCosts | CannotTell {
  const { trays, settings, sharedOver = "started", unread = [], memo = new Memo() } = input;
  if (trays.length === 0) return cannotTell("there are no trays");
  requirePositive("trayCosts", "settings.jarMillilitres", settings.jarMillilitres);
  requirePositive("trayCosts", "settings.traysPerLoad", settings.traysPerLoad);
  for (const { trayId, traysInPool } of trays) requirePositive("trayCosts", `traysInPool of ${trayId}`, traysInPool);
  const costLines = linesToCount(input.costLines, settings);
  if (costLines.length === 0) return cannotTell("there are no cost lines");

  const costed = costedTrays(trays, settings, sharedOver, memo);
  const months = trays.map(({ inoculatedOn }) => inoculatedOn?.slice(0, 7));
  const days = trays.map((tray, index) => (tray.inoculatedOn === undefined ? undefined : costed.lives[index]!.start));
  const versions = priceVersions(costLines);
  const { issues, doubts: ofDates } = uncertainPrices(versions, days);
  const doubts = [...unread.map(doubtOfUnread), ...ofDates];
  const counted: CountedLine[] = [];
  for (const version of versions) {
    const { line } = version;
    if (line.per === "unit sold") continue;
    const perUse = costPerUse(line, settings);
    if (perUse.kind === "cannot-tell") {
      const reason = `${perUse.reason}; the line is not counted`;
      issues.push(lineIssue(line, "cost-line-not-counted", "error", reason, perUse.expected));
      doubts.push(doubtOfLine(line, perUse.reason, "left out"));
      continue;
    }
    const one = countLine({ costed, memo, months, days }, version, perUse.money);
    counted.push(one);
    for (const said of [limitedToNoTray(line, trays), sayShortfalls(line, one.shortfalls, trays.length)]) {
      appendAll(issues, said.issues);
      appendAll(doubts, said.doubts);
    }
  }
  const items = counted.map(({ item }) => item);
  const amounts = counted.map((one) => one.amounts);
  const totals = columnSums(amounts, trays.length);
  return {
    kind: "costs",
    trays,
    lives: costed.lives,
    settings,
    items,
    amounts,
    totals,
    unabsorbed: counted.flatMap(({ unabsorbed }) => unabsorbed),
    costLines,
    doubts,
    issues,
  };
}
