import type { CostLine } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { type CostMeasure, costMeasure, splitUnit } from "./cost-amount.ts";
import { costKind, costStage, yesOrNo } from "./cost-words.ts";
import { readBase } from "./read-cost-base.ts";
import { readEnergy } from "./read-energy.ts";
import { type CostColumn, type CostRow, readMeasured } from "./read-measured.ts";
import { readWord } from "./read-word.ts";
import type { NumberRange } from "./row-cells.ts";

/** The unit of a pack given as a bare number: a count, unless the amount used is weighed, measured or timed. */
function bareUnit(row: CostRow, { cupMillilitres }: Settings): CostMeasure | undefined {
  const { unit } = splitUnit(row.text("amount"));
  const typed = [unit, row.text("amount_unit"), row.headerUnit("amount")].find((some) => some !== "") ?? "";
  const counted: CostMeasure = { unit: "each", factor: 1 };
  return typed === "" || costMeasure(typed, cupMillilitres)?.unit === "each" ? counted : undefined;
}

/** Reads one row of costs.csv; undefined once something it cannot do without is missing or wrong. */
export function readCostRow(row: CostRow, settings: Settings, dates: Readonly<DateConventions>): CostLine | undefined {
  const item = row.text("item");
  if (item === "") {
    row.say("item", {
      rule: "missing",
      reason: "the cost has no name",
      expected: "what it is, such as filter bag",
      action: "Type a name",
    });
  }
  const kind = readWord(row, "kind", costKind);
  const base = readBase(row);
  const ownerWord = row.has("owner_labour") ? readWord(row, "owner_labour", yesOrNo) : "no";
  const energy = readEnergy(row);

  const rateOnly = kind === "labour" && ownerWord === "yes" && !row.has("pack_price");
  let packPrice: number | undefined;
  let pack: { value: number; measure: CostMeasure } | undefined;
  if (rateOnly && settings.ownerLabourRate > 0) {
    packPrice = settings.ownerLabourRate;
    pack = { value: 1, measure: { unit: "hour", factor: 1 } };
    row.say(
      "pack_price",
      {
        rule: "owner-rate",
        reason: "no price, so the owner's rate of the settings per hour",
        expected: "",
        severity: "change",
      },
      String(packPrice),
    );
  } else {
    packPrice = row.money("pack_price", "the price of a pack");
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
    if (row.has("pack_size")) {
      pack = readMeasured(
        row,
        "pack_size",
        "pack_unit",
        settings,
        energy === undefined ? bareUnit(row, settings) : { unit: "kWh", factor: 1 },
        "the pack size",
      );
    } else {
      row.say("pack_size", {
        rule: "missing-pack-size",
        reason: "the pack size is missing, so that the price of what is used cannot be known",
        expected: "how much a pack holds, such as 25 kg or 100; 1 for a price per unit",
        action: "Type the pack size",
      });
    }
  }

  let amount: number | undefined;
  if (row.has("amount")) {
    const used = readMeasured(
      row,
      "amount",
      "amount_unit",
      settings,
      pack?.measure.factor === 1 ? pack.measure : undefined,
      "the amount used",
    );
    if (used !== undefined && pack !== undefined && used.measure.unit !== pack.measure.unit) {
      row.say("amount", {
        rule: "units-do-not-convert",
        reason: `the amount is in ${used.measure.unit} and the pack in ${pack.measure.unit}: one does not convert into the other`,
        expected: `an amount in units of ${pack.measure.unit}`,
        action: "Type both in weight, or both in volume, or both as a count",
      });
    } else amount = used?.value;
    if (
      amount !== undefined &&
      energy !== undefined &&
      Math.abs(amount - energy.kWh) > 0.005 * Math.max(amount, energy.kWh)
    ) {
      row.say("amount", {
        rule: "two-amounts",
        reason: "the amount typed is not what watts, hours and duty give; the amount was used",
        expected: `${energy.kWh} kWh, or no watts and hours`,
        severity: "warning",
      });
    }
  } else if (energy !== undefined) {
    amount = energy.kWh;
    if (pack !== undefined && pack.measure.unit !== "kWh") {
      row.say("pack_unit", {
        rule: "units-do-not-convert",
        reason: "power over hours gives kWh, and the pack is in another unit",
        expected: "kWh",
        action: "Type the price of a kWh, pack size 1, pack unit kWh",
      });
    }
  } else if (
    pack !== undefined &&
    pack.value === 1 &&
    (kind === "reusable" || kind === "overhead" || kind === "space")
  ) {
    amount = 1;
    row.say(
      "amount",
      { rule: "amount-of-one", reason: "no amount: one use is the whole pack", expected: "", severity: "note" },
      "1",
    );
  } else if (!row.failed) {
    row.say("amount", {
      rule: "missing",
      reason: "the amount used is missing",
      expected: "how much one use uses, such as 350 g",
      action: "Type the amount",
    });
  }

  const optional = (key: CostColumn, range: NumberRange, what: string) =>
    row.has(key) ? row.number(key, range, what) : undefined;
  const uses = optional("uses", { least: 0, above: true }, "the number of uses");
  const lifeYears = optional("life_years", { least: 0, above: true }, "the life in years");
  const usesPerYear = optional("uses_per_year", { least: 0, above: true }, "the uses a year");
  if (
    kind === "reusable" &&
    uses === undefined &&
    (lifeYears === undefined || usesPerYear === undefined) &&
    !row.failed
  ) {
    row.say("uses", {
      rule: "missing-life",
      reason: "a reusable needs the uses it lasts, or its life in years and the uses a year",
      expected: "uses, or life_years and uses_per_year",
      action: "Type one or the other",
    });
  }
  const salvage = row.has("salvage") ? row.money("salvage", "the money recovered") : undefined;
  const breakage = row.has("breakage_pct")
    ? row.share("breakage_pct", { least: 0, most: 1 }, "the share that breaks")
    : undefined;
  const expandsToJars = optional("expands_to_jars", { least: 0, above: true }, "the jars one pack makes");
  const packPriceLow = row.has("pack_price_low") ? row.money("pack_price_low", "the low price") : undefined;
  const packPriceHigh = row.has("pack_price_high") ? row.money("pack_price_high", "the high price") : undefined;
  if (packPriceLow !== undefined && packPriceHigh !== undefined && packPriceLow > packPriceHigh) {
    row.say("pack_price_low", {
      rule: "range-reversed",
      reason: "the low price is above the high one",
      expected: "the lower price first",
      action: "Exchange them",
    });
  }
  const normalTraysPerMonth = optional(
    "normal_trays_per_month",
    { least: 0, above: true },
    "the trays of a normal month",
  );
  const stage = row.has("stage") ? readWord(row, "stage", costStage) : undefined;

  const fromDate = row.has("from_date") ? row.date("from_date", dates) : undefined;
  const onlyWhereColumn = row.text("only_where_column");
  const onlyWhereValue = row.text("only_where_value");
  if ((onlyWhereColumn === "") !== (onlyWhereValue === "")) {
    const missing = onlyWhereColumn === "" ? "only_where_column" : "only_where_value";
    row.say(missing, {
      rule: "half-a-condition",
      reason: "a condition needs a column and a value",
      expected: "both, or neither",
      action: "Type the other one, or remove this one",
    });
  }

  if (
    row.failed ||
    kind === undefined ||
    base === undefined ||
    packPrice === undefined ||
    pack === undefined ||
    amount === undefined
  ) {
    row.failed = true;
    return undefined;
  }
  const note = row.text("note");
  return {
    item,
    kind,
    packPrice,
    packSize: pack.value,
    packUnit: pack.measure.unit,
    amount: base.share === 1 ? amount : Number((amount / base.share).toPrecision(15)),
    per: base.per,
    ...(energy === undefined ? {} : { watts: energy.watts, hours: energy.hours, duty: energy.duty }),
    ...(uses === undefined ? {} : { uses }),
    ...(lifeYears === undefined ? {} : { lifeYears }),
    ...(usesPerYear === undefined ? {} : { usesPerYear }),
    ...(salvage === undefined ? {} : { salvage }),
    ...(breakage === undefined ? {} : { breakage }),
    ...(expandsToJars === undefined ? {} : { expandsToJars }),
    ownerLabour: ownerWord === "yes",
    ...(onlyWhereColumn === "" ? {} : { onlyWhereColumn, onlyWhereValue }),
    ...(stage === undefined ? {} : { stage }),
    ...(fromDate === undefined ? {} : { fromDate }),
    ...(packPriceLow === undefined ? {} : { packPriceLow }),
    ...(packPriceHigh === undefined ? {} : { packPriceHigh }),
    ...(normalTraysPerMonth === undefined ? {} : { normalTraysPerMonth }),
    ...(note === "" ? {} : { note }),
    source: { file: row.file, row: row.row },
  };
}
