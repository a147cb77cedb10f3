import type { CostBase, CostKind } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import { costMeasure } from "./cost-amount.ts";
import { costBase } from "./cost-words.ts";
import type { readEnergy } from "./read-energy.ts";
import { type CostRow, readMeasured } from "./read-measured.ts";
import type { PackReading } from "./read-pack-price.ts";

type Energy = ReturnType<typeof readEnergy>;

/** The amount as typed, in the pack's unit; undefined where it cannot be read or does not convert. */
function typedAmount(row: CostRow, settings: Settings, pack: PackReading["pack"], energy: Energy): number | undefined {
  // out of a dozen one is used
  const isCount = pack?.measure.unit === "each";
  const fallback =
    pack?.measure.factor === 1 || isCount ? ({ unit: pack!.measure.unit, factor: 1 } as const) : undefined;
  const used = readMeasured(row, "amount", "amount_unit", settings, fallback, "the amount used");
  if (used !== undefined && pack !== undefined && used.measure.unit !== pack.measure.unit) {
    return row.say("amount", {
      rule: "units-do-not-convert",
      reason: `the amount is in ${used.measure.unit} and the pack in ${pack.measure.unit}: one does not convert into the other`,
      expected: `an amount in units of ${pack.measure.unit}`,
      action: "Type both in weight, or both in volume, or both as a count",
    });
  }
  const amount = used?.value;
  if (amount === undefined || energy === undefined) return amount;
  if (Math.abs(amount - energy.kWh) > 0.005 * Math.max(amount, energy.kWh)) {
    row.say("amount", {
      rule: "two-amounts",
      reason: "the amount typed is not what watts, hours and duty give; the amount was used",
      expected: `${energy.kWh} kWh, or no watts and hours`,
      severity: "warning",
    });
  }
  return amount;
}

const ofOne = new Set(["tray", "good tray", "jar", "unit sold"]);

/** Asks about a time without a unit that is long for hours: 30 a cook, or 2 a tray, may be minutes. */
function isBareTime(row: CostRow, pack: PackReading["pack"], amount: number | undefined): boolean {
  const isBare =
    /^[\d.,\s]+$/.test(row.text("amount")) && row.text("amount_unit") === "" && row.headerUnit("amount") === "";
  if (pack?.measure.unit !== "hour" || !isBare || amount === undefined) return false;
  if (amount < (ofOne.has(costBase.find(row.text("per"))?.answer ?? "") ? 1 : 5)) return false;
  row.say("amount", {
    rule: "hours-or-minutes",
    reason: "whether it is of hours or of minutes is not said",
    expected: "a time with its unit, such as 5 min or 1.5 h",
    action: "Type the unit behind the time",
  });
  return true;
}

/** no tray, jar or unit sold takes more than this of a thing, in g or mL, nor less than this part of its pack. Common practice, no source */
const mostOfOne = 50_000;
const leastOfPack = 1e-4;
/** and a thing that is counted, such as a bag, weighs more than this many g where a header says that it is weighed */
const fewestOfCounted = 10;

/** Asks about a weight or volume that one tray cannot take, or that its header alone gives to a thing that is counted. */
function isOddSize(row: CostRow, cup: number, pack: PackReading["pack"], amount: number | undefined): boolean {
  const unit = pack?.measure.unit;
  const isOfOne = ofOne.has(costBase.find(row.text("per"))?.answer ?? "");
  if (!isOfOne || amount === undefined || amount === 0 || (unit !== "g" && unit !== "mL")) return false;
  const named = row.text("item").replace(/\(.*/, "").trim().split(/\s+/).at(-1) ?? "";
  const isBare = /^[\d.,\s]+$/.test(row.text("amount")) && !row.has("amount_unit");
  const isCounted = amount <= fewestOfCounted && costMeasure(named, cup)?.unit === "each";
  const isLittle = isBare && (isCounted || amount < leastOfPack * pack!.value);
  if (!isLittle && amount <= mostOfOne) return false;
  row.say("amount", {
    rule: "odd-amount",
    reason: `${amount} ${unit} of it for one ${costBase.find(row.text("per"))!.answer}: the unit may be another`,
    expected: "an amount with its own unit, such as 350 g or 1 piece",
    action: "Type the units behind the amount and behind the size of the pack",
  });
  return true;
}

/** What a line for each mL or g of something is in. */
const unitOfBase: Readonly<Partial<Record<CostBase, string>>> = {
  "inoculum mL": "mL",
  "supplement g": "g",
  "grain g": "g",
};

/**
 * Reads how much one use takes: typed, or the kWh of a device, or the whole pack where a line is for one thing, or as much as
 * it is for: a mL of each mL.
 */
export function readAmountUsed(
  row: CostRow,
  settings: Settings,
  {
    kind,
    pack,
    energy,
    base,
  }: {
    kind: CostKind | undefined;
    pack: PackReading["pack"];
    energy: Energy;
    base: { per: CostBase; share: number } | undefined;
  },
): number | undefined {
  if (row.has("amount")) {
    const amount = typedAmount(row, settings, pack, energy);
    const isAsked = isBareTime(row, pack, amount) || isOddSize(row, settings.cupMillilitres, pack, amount);
    return isAsked ? undefined : amount;
  }
  if (energy !== undefined) {
    if (pack !== undefined && pack.measure.unit !== "kWh") {
      row.say("pack_unit", {
        rule: "units-do-not-convert",
        reason: "power over hours gives kWh, and the pack is in another unit",
        expected: "kWh",
        action: "Type the price of a kWh, pack size 1, pack unit kWh",
      });
    }
    return energy.kWh;
  }
  if (pack?.value === 1 && (kind === "reusable" || kind === "overhead" || kind === "space")) {
    const reason = "no amount: one use is the whole pack";
    row.say("amount", { rule: "amount-of-one", reason, expected: "", severity: "note" }, "1");
    return 1;
  }
  if (base !== undefined && pack !== undefined && unitOfBase[base.per] === pack.measure.unit) {
    const reason = `no amount: a line for each ${pack.measure.unit} takes as much as it is for`;
    row.say("amount", { rule: "amount-of-one", reason, expected: "", severity: "note" }, String(base.share));
    return base.share;
  }
  if (!row.failed) {
    row.say("amount", {
      rule: "missing",
      reason: "the amount used is missing",
      expected: "how much one use takes, such as 350 g",
      action: "Type the amount",
    });
  }
  return undefined;
}
