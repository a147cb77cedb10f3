import type { CostLine } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import { isLost, type Tray } from "../../records/tray.ts";
import { daysCharged, hasReached, type TrayLife } from "../trays/tray-life.ts";
import { lineStage } from "./line-stage.ts";
import { isWhere } from "./tray-column.ts";

/** What the shares of a cost line are worked out from. */
export interface CostedTrays {
  trays: ReadonlyArray<Tray>;
  lives: ReadonlyArray<TrayLife>;
  settings: Readonly<Settings>;
  /** which trays of a cook or load share its cost: every started one, or those not lost */
  sharedOver: "started" | "not lost";
  /** the loads each tray shared; undefined when not known */
  loads: ReadonlyArray<SharedLoads | undefined>;
}

/** Trays that went through the steriliser together. */
export interface SharedLoads {
  name: string;
  /** how many runs they took */
  runs: number;
  /** counted from the day, since no load is recorded */
  isAssumed: boolean;
}

/** Why a line could not be counted for some trays. */
export interface Shortfall {
  rule: string;
  severity: "note" | "warning";
  /** completes "for these trays ..." */
  reason: string;
  expected: string;
  setting?: string;
}

/** Tells how much of a line a tray took, 0 for one the line is not for, or why that is not known. */
export type CostDriverQuantity = (index: number) => number | { shortfall: Shortfall; quantity: number };

const notRecorded = (what: string, expected: string): { shortfall: Shortfall; quantity: number } => ({
  quantity: 0,
  shortfall: {
    rule: "cost-not-counted",
    severity: "warning",
    reason: `${what} is not recorded, so this cost is not counted for the tray`,
    expected,
  },
});

/**
 * Names the load of each tray. A name of more trays than a load holds, in more than one cook, is a name
 * used again in each cook, and is kept apart by cook.
 */
export function loadNames(trays: ReadonlyArray<Tray>, traysPerLoad: number): (string | undefined)[] {
  const counts = new Map<string, { trays: number; cooks: Set<string> }>();
  for (const { load, batch, traysInPool } of trays) {
    if (load === undefined) continue;
    const count = counts.get(load) ?? { trays: 0, cooks: new Set<string>() };
    counts.set(load, count);
    count.trays += traysInPool;
    if (batch !== undefined) count.cooks.add(batch);
  }
  return trays.map(({ load, batch }) => {
    if (load === undefined) return undefined;
    const { trays: held, cooks } = counts.get(load)!;
    return held > traysPerLoad && cooks.size > 1 ? JSON.stringify([batch, load]) : load;
  });
}

/** First day each cook was inoculated on: a cook spread over two days went through the steriliser once. */
function daysOfCooks(trays: ReadonlyArray<Tray>): Map<string, string> {
  const first = new Map<string, string>();
  for (const { batch, inoculatedOn } of trays) {
    if (batch === undefined || inoculatedOn === undefined) continue;
    const day = first.get(batch);
    if (day === undefined || inoculatedOn < day) first.set(batch, inoculatedOn);
  }
  return first;
}

/**
 * The loads of each tray: the one recorded; where none is, as many as the trays of its day fill, the last one perhaps not
 * full, since what is cooked on another day takes a run of its own. Common practice, no source.
 * @returns undefined for a tray without load and day
 */
export function sharedLoads(trays: ReadonlyArray<Tray>, traysPerLoad: number): (SharedLoads | undefined)[] {
  const names = loadNames(trays, traysPerLoad);
  const daysOf = daysOfCooks(trays);
  const groups = new Map<string, SharedLoads & { trays: number }>();
  const found = trays.map(({ batch, inoculatedOn, traysInPool }, index) => {
    const recorded = names[index];
    const day = daysOf.get(batch ?? "") ?? inoculatedOn;
    const name = recorded ?? (day === undefined ? undefined : `loads of ${day}`);
    if (name === undefined) return undefined;
    const isAssumed = recorded === undefined;
    const key = isAssumed ? name : `load ${name}`;
    const group = groups.get(key) ?? { name: key, runs: 1, isAssumed, trays: 0 };
    groups.set(key, group);
    group.trays += traysInPool;
    return group;
  });
  for (const group of groups.values()) if (group.isAssumed) group.runs = Math.ceil(group.trays / traysPerLoad);
  return found;
}

/** Tells which trays a line is for: those that came as far as its stage, where it is not limited to others. */
export function isForTray(
  { trays, lives }: Pick<CostedTrays, "trays" | "lives">,
  line: CostLine,
): (index: number) => boolean {
  const stage = lineStage(line);
  return (index) =>
    hasReached(lives[index]!, stage) && isWhere(trays[index]!, line.onlyWhereColumn, line.onlyWhereValue);
}

/** Shares one use over the trays of each group that the line is for. */
function sharedIn(
  { trays, sharedOver }: CostedTrays,
  takesPart: (index: number) => boolean,
  groupOf: (index: number) => string | undefined,
  ungrouped: CostDriverQuantity,
): CostDriverQuantity {
  const sizes = new Map<string, { all: number; kept: number }>();
  for (let index = 0; index < trays.length; index++) {
    const group = groupOf(index);
    if (group === undefined || !takesPart(index)) continue;
    const size = sizes.get(group) ?? { all: 0, kept: 0 };
    sizes.set(group, size);
    size.all += trays[index]!.traysInPool;
    if (!isLost(trays[index]!)) size.kept += trays[index]!.traysInPool;
  }
  return (index) => {
    if (!takesPart(index)) return 0;
    const group = groupOf(index);
    if (group === undefined) return ungrouped(index);
    const { all, kept } = sizes.get(group)!;
    // a group that was lost altogether still cost its one use
    if (sharedOver === "started" || kept === 0) return trays[index]!.traysInPool / all;
    return isLost(trays[index]!) ? 0 : trays[index]!.traysInPool / kept;
  };
}

/** What a line per amount is counted by, and what to record where that is missing. */
interface Amount {
  of: (tray: Tray) => number | undefined;
  what: string;
  column: string;
  /** of the line's unit in one of the amount */
  share: number;
}

const perTray = (read: (tray: Tray) => number | undefined) => (tray: Tray) => {
  const amount = read(tray);
  return amount === undefined ? undefined : amount * tray.traysInPool;
};

/** The amounts that lines are counted by, of a tray or of all trays of a pool together. */
function amountFor({ per }: CostLine, settings: Readonly<Settings>): Amount | undefined {
  switch (per) {
    case "jar":
    case "inoculum mL":
      return {
        of: perTray(({ inoculumMillilitres }) => inoculumMillilitres),
        what: "the inoculum",
        column: "inoculum_ml",
        share: per === "jar" ? 1 / settings.jarMillilitres : 1,
      };
    case "supplement g":
      return {
        of: perTray(({ supplementGrams }) => supplementGrams),
        what: "the amount of supplement",
        column: "supplement_g, 0 for none",
        share: 1,
      };
    case "grain g":
      return {
        of: perTray(({ grainDryGrams }) => grainDryGrams),
        what: "the amount of grain",
        column: "grain_dry_g",
        share: 1,
      };
    case "kg fresh":
      return { of: ({ freshGrams }) => freshGrams, what: "the fresh weight", column: "fresh_g", share: 1 / 1000 };
    case "kg dried":
      return { of: ({ dryGrams }) => dryGrams, what: "the dry weight", column: "dry_g", share: 1 / 1000 };
    default:
      return undefined;
  }
}

const typicalDays: Shortfall = {
  rule: "cost-typical-days",
  severity: "note",
  reason:
    "the day it was moved, harvested or lost is not recorded, so the mean time of other trays up to there is charged",
  expected: "fruiting_on, and harvested_on also for lost trays",
};

const loadAssumed = (reason: string): Shortfall => ({
  rule: "cost-load-assumed",
  severity: "note",
  reason: `the cooker load is not recorded, so ${reason}`,
  expected: "load",
  setting: "trays_per_load",
});
const fullLoad = loadAssumed("the tray carries its share of a full load");
const loadsOfDay = loadAssumed("the trays of a day share as many loads as they fill, the last one not always full");

/** Shares of the loads a tray went through; of a full one where neither load nor day is known. */
function perLoad(costed: CostedTrays, takesPart: (index: number) => boolean): CostDriverQuantity {
  const { trays, loads, settings } = costed;
  const ofOne = sharedIn(
    costed,
    takesPart,
    (index) => loads[index]?.name,
    (index) => ({ quantity: trays[index]!.traysInPool / settings.traysPerLoad, shortfall: fullLoad }),
  );
  return (index) => {
    const share = ofOne(index);
    const load = loads[index];
    if (typeof share !== "number" || share === 0 || !load?.isAssumed) return share;
    return { quantity: share * load.runs, shortfall: loadsOfDay };
  };
}

/**
 * How much of a cost line each tray took, by the line's base. Monthly lines have their own rule, and lines per
 * unit sold belong to products; neither comes here. A pool of trays takes what its trays take together.
 * @throws RangeError if the line's base is "month" or "unit sold"
 */
export function costDriverQuantity(costed: CostedTrays, line: CostLine): CostDriverQuantity {
  const { trays, lives, settings } = costed;
  const isFor = isForTray(costed, line);
  const each =
    (quantity: (tray: Tray, index: number) => ReturnType<CostDriverQuantity>): CostDriverQuantity =>
    (index) =>
      isFor(index) ? quantity(trays[index]!, index) : 0;
  const amount = amountFor(line, settings);
  if (amount !== undefined) {
    return each((tray) => {
      const found = amount.of(tray);
      return found === undefined ? notRecorded(amount.what, amount.column) : found * amount.share;
    });
  }
  switch (line.per) {
    case "tray":
      return each(({ traysInPool }) => traysInPool);
    case "good tray":
      return each(({ outcome, traysInPool }) => (outcome === "good" ? traysInPool : 0));
    case "cook":
      return sharedIn(
        costed,
        isFor,
        (index) => trays[index]!.batch,
        () => notRecorded("the cook", "batch"),
      );
    case "load":
      return perLoad(costed, isFor);
    case "shelf day":
      return each(({ traysInPool }, index) => {
        const days = daysCharged(lives[index]!, lineStage(line));
        if (days === undefined) return notRecorded("the time on the shelf", "dates, or days_to_harvest");
        const quantity = days * traysInPool;
        return lives[index]!.isTypical ? { quantity, shortfall: typicalDays } : quantity;
      });
    default:
      throw new RangeError(
        `costDriverQuantity: a line per ${line.per} is not shared over trays here; item ${line.item}`,
      );
  }
}
