import { splitUnit } from "./cost-amount.ts";
import { costBase } from "./cost-words.ts";
import type { CostRow } from "./read-measured.ts";

const wattsOf = new Map([
  ...["", "w", "watt", "watts"].map((unit) => [unit, 1] as const),
  ...["kw", "kilowatt", "kilowatts"].map((unit) => [unit, 1000] as const),
]);

function readWatts(row: CostRow): number | undefined {
  const { number, unit } = splitUnit(row.text("watts"));
  const typed = row.within("watts", row.quantity("watts", number, "number"), { least: 0 }, "the power drawn");
  const header = row.headerUnit("watts") || row.headerText("watts");
  const inHeader =
    wattsOf.get(
      header
        .trim()
        .toLowerCase()
        .replace(/^power /, ""),
    ) ?? 1;
  const factor = unit === "" ? inHeader : wattsOf.get(unit.toLowerCase());
  if (typed === undefined) return undefined;
  if (factor !== undefined) return typed * factor;
  return row.say("watts", {
    rule: "unknown-unit",
    reason: "the unit of the power drawn is not one of power",
    expected: "a power in W or kW, such as 1500 or 1.5 kW",
    action: "Type the power in W",
  });
}

/** Where watts, hours and duty are given, the kWh of one use; otherwise undefined. */
export function readEnergy(row: CostRow): { watts: number; hours: number; duty: number; kWh: number } | undefined {
  if (!row.has("watts")) return undefined;
  const watts = readWatts(row);
  if (!row.has("hours")) {
    if (row.has("amount")) return undefined;
    return row.say("hours", {
      rule: "missing",
      reason: "the power is given and the hours it is drawn are not",
      expected: "hours of use per use, such as 2.5",
      action: "Type the hours, or the kWh as amount",
    });
  }
  const hours = row.within(
    "hours",
    row.quantity("hours", row.text("hours"), "hours"),
    { least: 0 },
    "the hours of use",
  );
  if ((hours ?? 25) <= 24 && costBase.find(row.text("per"))?.answer === "month") {
    row.say("hours", {
      rule: "hours-of-month",
      reason: "a month has some 730 hours: whether these are the hours of a day or of the month is not said",
      expected: "the kWh of a month as amount, or the hours of a month, above 24",
      action: "Type the kWh of a month as amount, without watts and hours",
    });
  }
  const duty = row.has("duty_pct")
    ? row.share("duty_pct", { least: 0, most: 1 }, "the share of time power is drawn")
    : 1;
  if (watts === undefined || hours === undefined || duty === undefined) return undefined;
  return { watts, hours, duty, kWh: Number(((watts * hours * duty) / 1000).toPrecision(15)) };
}
