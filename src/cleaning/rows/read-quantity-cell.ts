import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { settingDefinitions } from "../../records/setting-definitions.ts";
import { type ColumnPlan, quantityKindOf } from "../columns/column-plan.ts";
import { temperatureScale } from "../evidence/likely-ranges.ts";
import { whyImpossible } from "../plausibility/impossible-value.ts";
import { containerIncluded } from "../rules/container-included.ts";
import { listInCell } from "../rules/list-in-cell.ts";
import { eachRule } from "../rules/per-tray.ts";
import { readOutcome } from "../values/outcome-words.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import type {
  AmbiguousReading,
  ApproximateReading,
  BoundsReading,
  Change,
  Missing,
  PoolReading,
  QuantityKind,
  QuantityReading,
  ValueReading,
} from "../values/quantity-reading.ts";
import { exampleOf } from "../values/read-amount.ts";
import { canonicalBounds, canonicalNumber } from "./canonical-text.ts";
import { type CellFact, type CellRemark, nothing } from "./cell-fact.ts";
import { outcomeWordFact } from "./outcome-word-fact.ts";

const reasons = (changes: ReadonlyArray<Change>): string =>
  [...new Set(changes.map(({ reason }) => reason))].join("; ");

const remark = (
  rule: string,
  reason: string,
  more: Partial<CellRemark> & Pick<CellRemark, "severity">,
): CellRemark => ({
  rule,
  reason,
  result: "",
  expected: "",
  action: "",
  ...more,
});

/** What to do about a cell that one answer in the settings would decide, naming the key and what it may say. */
export function settingAction(setting: string): string {
  const definition = settingDefinitions.find(({ key }) => key === setting);
  const choices = definition?.choices === undefined ? "" : ` (${definition.choices.join(", ")})`;
  return `State ${setting} in settings.csv${choices}: that settles every cell like this one`;
}

/** In a column that mixes °C and °F without saying which, the one scale on which mushrooms could have grown. */
function byOnlyScale(text: string, { candidates, setting }: AmbiguousReading): CellFact | undefined {
  if (setting !== "temperature_unit") return undefined;
  const [celsius, fahrenheit] = candidates;
  const scale = celsius === undefined ? "neither" : temperatureScale(celsius.value);
  const value = scale === "C" ? celsius?.value : scale === "F" ? fahrenheit?.value : undefined;
  if (value === undefined || text === "") return undefined;
  return {
    value,
    remark: remark(
      "mixed-temperatures",
      `read as °${scale}, the only scale on which it could be one; the column mixes both`,
      {
        severity: "warning",
        result: String(value),
        expected: exampleOf.temperature,
        action: settingAction(setting),
        setting,
      },
    ),
  };
}

/** What is said of a cell that is not read: where it cannot be, an error; where one more fact decides, a question. */
function left(reading: QuantityReading & { kind: "ambiguous" | "unreadable" }): CellRemark {
  const { changes, expected } = reading;
  const { rule, reason } = changes.at(-1)!;
  if (reading.kind === "unreadable") {
    const severity = rule === containerIncluded.code ? "warning" : "error";
    return remark(rule, reason, { severity, expected, action: `Type ${expected}` });
  }
  const { setting } = reading;
  return remark(rule, reason, {
    severity: "warning",
    expected,
    action: settingAction(setting),
    ...(setting === "" ? {} : { setting }),
  });
}

const impossibleFact = (why: string, kind: QuantityKind): CellFact => ({
  unread: true,
  remark: remark("impossible-value", why, {
    severity: "error",
    expected: exampleOf[kind],
    action: "Correct the cell",
  }),
});

function missingFact(text: string, how: Missing, reason: string): CellFact {
  if (how === "blank") return nothing;
  const missing = remark("missing-word", reason, { severity: "change" });
  // "forgot to weigh" says that there was something to weigh; "tbd" does not
  const unread = how === "not weighed" || (how === "unknown" && readOutcome(text)?.says !== "pending");
  return unread ? { unread, remark: missing } : { remark: missing };
}

function boundsFact(reading: BoundsReading, plan: ColumnPlan, kind: QuantityKind): CellFact {
  const { low, high, changes } = reading;
  const field = plan.field as HarvestFieldKey;
  const impossible = [low, high]
    .map((end) => (end === undefined ? "" : whyImpossible(field, plan.kind, end)))
    .find((why) => why !== "");
  if (impossible !== undefined) return impossibleFact(impossible, kind);
  const said = { severity: "warning", expected: exampleOf[kind] } as const;
  if (kind === "count") return { remark: remark("bounds", reasons(changes), { ...said, action: "Type one number" }) };
  const bounds = { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
  const result = canonicalBounds(bounds, plan.kind);
  const action = "Type one number if it was measured";
  return { bounds, remark: remark("bounds", reasons(changes), { ...said, result, action }) };
}

function numberFact(
  reading: ValueReading | ApproximateReading | PoolReading,
  plan: ColumnPlan,
  kind: QuantityKind,
): CellFact {
  const { value, changes } = reading;
  const last = changes.at(-1);
  const result = canonicalNumber(value, plan.kind);
  const impossible = whyImpossible(plan.field as HarvestFieldKey, plan.kind, value);
  if (impossible !== "") return impossibleFact(impossible, kind);
  const each = changes.some(({ rule }) => rule === eachRule) ? { each: true } : {};
  if (reading.kind === "pool") {
    const pooled = { severity: "note", result: `${reading.trays} trays ${result}` } as const;
    return { value, pool: reading.trays, ...each, remark: remark("pooled", reasons(changes), pooled) };
  }
  if (reading.kind === "approximate") {
    const rule =
      changes.find((change) => change.rule === "approximate" || change.rule === "rough-unit")?.rule ?? "approximate";
    const action = "Type the number as measured if it was";
    const said = { severity: "warning", result, expected: exampleOf[kind], action } as const;
    return { value, ...each, remark: remark(rule, reasons(changes), said) };
  }
  if (last === undefined) return { value };
  // one list tells how commas are read in the others
  const open = changes.some(({ rule }) => rule === listInCell.code) ? { open: true } : {};
  return { value, ...each, ...open, remark: remark(last.rule, reasons(changes), { severity: "change", result }) };
}

/** What is put into a tray before anything can become of it: "compost" there is no word for its end. */
const putIn: ReadonlySet<string> = new Set<HarvestFieldKey>([
  "substrate_wet_g",
  "grain_dry_g",
  "supplement_g",
  "inoculum_ml",
  "spawn_g",
  "spawn_pct",
  "added_liquid_ml",
]);

/** A word for a tray's end where a number should be; where things put in are counted it has to mean nothing else. */
function outcomeFact(
  text: string,
  { says, queried, changes }: QuantityReading & { kind: "outcome-word" },
  { field }: ColumnPlan,
  kind: QuantityKind,
): CellFact {
  if (!putIn.has(field) || readOutcome(text)?.sure === true)
    return outcomeWordFact(says, queried, changes.at(-1)?.reason ?? "");
  const said = { severity: "error", expected: exampleOf[kind], action: `Type ${exampleOf[kind]}` } as const;
  return { unread: true, remark: remark("not-a-number", "no number can be read here", said) };
}

/** "5 of 6" under a count of trays: so many of them were picked, and the others lost. In the eight languages, from memory. */
function pickedOf(text: string): CellFact | undefined {
  const [, picked, all] = /^\s*(\d{1,3})\s*(?:\/|(?:out )?of|von|sur|de|di|su|van|z)\s*(\d{1,3})\s*$/i.exec(text) ?? [];
  const lost = Number(all) - Number(picked);
  if (!(lost >= 0)) return undefined;
  return { value: Number(all), ...(lost === 0 ? {} : { lost: { trays: lost, outcome: "discarded" } }) };
}

/**
 * What a cell of a column of numbers adds to its tray.
 * @param text not empty
 */
export function readQuantityCell(text: string, plan: ColumnPlan): CellFact {
  const ofAll = plan.field === "trays_in_pool" ? pickedOf(text) : undefined;
  if (ofAll !== undefined) return ofAll;
  const kind = quantityKindOf(plan.kind)!;
  const reading = parseQuantity(text, kind, plan.conventions);
  const reason = reading.changes.at(-1)?.reason ?? "";
  switch (reading.kind) {
    case "missing":
      return missingFact(text, reading.how, reason);
    case "outcome-word":
      return outcomeFact(text, reading, plan, kind);
    case "ambiguous":
      return (
        (plan.mixedTemperatures ? byOnlyScale(text, reading) : undefined) ?? {
          open: true,
          unread: true,
          remark: left(reading),
        }
      );
    case "unreadable":
      return { unread: true, remark: left(reading) };
    case "bounds":
      return boundsFact(reading, plan, kind);
    default:
      return numberFact(reading, plan, kind);
  }
}
