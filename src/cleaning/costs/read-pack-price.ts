import type { CostKind } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import { moneyBackRules } from "../side-sheets/read-side-table.ts";
import { type CostMeasure, costMeasure, splitUnit } from "./cost-amount.ts";
import { type CostRow, readMeasured } from "./read-measured.ts";

// In the eight languages, from memory.
const moneyBack =
  /^(?:[\p{L} ]* )?(?:deposit|pfand|kaution|fianza|cauzione|statiegeld|kaucja|cau[cç][aã]o)$|refund|credit note|cash ?back|rebate|reimburse|gutschrift|erstattung|rembours|reembolso|rimborso|nota di credito|terugbetaling|creditnota|zwrot/iu;

/** What a pack of a cost line costs and holds; a part that could not be read is absent. */
export interface PackReading {
  packPrice: number | undefined;
  pack: { value: number; measure: CostMeasure } | undefined;
}

/** The unit of a pack given as a bare number: a count, unless the amount used is weighed, measured or timed. */
function bareUnit(row: CostRow, { cupMillilitres }: Settings): CostMeasure | undefined {
  const { unit } = splitUnit(row.text("amount"));
  const typed = [unit, row.text("amount_unit"), row.headerUnit("amount")].find((some) => some !== "") ?? "";
  const counted: CostMeasure = { unit: "each", factor: 1 };
  return typed === "" || costMeasure(typed, cupMillilitres)?.unit === "each" ? counted : undefined;
}

function readPackSize(row: CostRow, settings: Settings, isEnergy: boolean): PackReading["pack"] {
  if (row.has("pack_size")) {
    const bare: CostMeasure | undefined = isEnergy ? { unit: "kWh", factor: 1 } : bareUnit(row, settings);
    return readMeasured(row, "pack_size", "pack_unit", settings, bare, "the pack size");
  }
  // of a sheet without packs and amounts, what the price is for or the price is said to be missing
  if (row.failed && row.headerText("pack_size") === "" && !row.has("amount")) return undefined;
  return row.say("pack_size", {
    rule: "missing-pack-size",
    reason: "the pack size is missing, so that the price of what is used cannot be known",
    expected: "how much a pack holds, such as 25 kg or 100; 1 for a price per unit",
    action: "Type the pack size",
  });
}

/** Reads what a pack costs and holds; the owner's own time without a price takes the rate of the settings. */
export function readPackPrice(
  row: CostRow,
  settings: Settings,
  { kind, isOwner, isEnergy }: { kind: CostKind | undefined; isOwner: boolean; isEnergy: boolean },
): PackReading {
  const rateOnly = kind === "labour" && isOwner && !row.has("pack_price");
  if (rateOnly && settings.ownerLabourRate > 0) {
    const packPrice = settings.ownerLabourRate;
    const reason = "no price, so the owner's rate of the settings per hour";
    row.say("pack_price", { rule: "owner-rate", reason, expected: "", severity: "change" }, String(packPrice));
    return { packPrice, pack: { value: 1, measure: { unit: "hour", factor: 1 } } };
  }
  const price = row.text("pack_price");
  const isBack = moneyBack.test(row.text("item").replace(/\s*\(.*\)/, ""));
  const isBelow = /^\s*(?:[-−–]|\()\s*\D{0,4}[\d.,]+\D{0,5}\)?$/u.test(price);
  if ((isBack || isBelow) && /[1-9]/.test(price)) {
    row.say("pack_price", {
      rule: isBack ? moneyBackRules.sure : moneyBackRules.perhaps,
      reason: isBack
        ? "money that comes back is no cost"
        : "a price below 0 may be money paid, as an account lists it, or money that came back",
      expected: "what was paid, without what came back",
      action: isBack
        ? "Take it off the price of the thing it was paid back for, and delete this row"
        : "Type what was paid without its minus; take what came back off the price it was paid back for",
    });
    return { packPrice: undefined, pack: undefined };
  }
  const packPrice = row.money("pack_price", "the price of a pack");
  if (!row.has("pack_price")) {
    row.say("pack_price", {
      rule: "missing",
      reason: rateOnly
        ? "the owner's time has no price, and the settings give no rate"
        : "the price of a pack is missing",
      expected: "a price, such as 12.90",
      action: rateOnly ? "Type a price, or set owner_labour_rate in settings.csv" : "Type what a pack costs",
      ...(rateOnly ? { setting: "owner_labour_rate" } : {}),
    });
  }
  return { packPrice, pack: readPackSize(row, settings, isEnergy) };
}
