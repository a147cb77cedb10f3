import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { settingDefinitions } from "../../records/setting.ts";
import { type ColumnPlan, quantityKindOf } from "../columns/column-plan.ts";
import { temperatureScale } from "../evidence/likely-ranges.ts";
import { whyImpossible } from "../plausibility/impossible-value.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import type { AmbiguousReading, Change, QuantityReading } from "../values/quantity-reading.ts";
import { exampleOf } from "../values/read-amount.ts";
import { canonicalBounds, canonicalNumber } from "./canonical-text.ts";
import { type CellFact, type CellRemark, nothing } from "./cell-fact.ts";

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

function left(reading: QuantityReading & { kind: "ambiguous" | "unreadable" }): CellRemark {
  const { changes, expected } = reading;
  const { rule, reason } = changes.at(-1)!;
  if (reading.kind === "unreadable")
    return remark(rule, reason, { severity: "warning", expected, action: `Type ${expected}` });
  const { setting } = reading;
  return remark(rule, reason, {
    severity: "warning",
    expected,
    action: settingAction(setting),
    ...(setting === "" ? {} : { setting }),
  });
}

/**
 * What a cell of a column of numbers adds to its tray.
 * @param text not empty
 */
export function readQuantityCell(text: string, plan: ColumnPlan): CellFact {
  const kind = quantityKindOf(plan.kind)!;
  const field = plan.field as HarvestFieldKey;
  const reading = parseQuantity(text, kind, plan.conventions);
  const { changes } = reading;
  const last = changes.at(-1);
  const shown = (value: number): string => canonicalNumber(value, plan.kind);
  switch (reading.kind) {
    case "missing":
      if (reading.how === "blank") return nothing;
      return { remark: remark("missing-word", last!.reason, { severity: "change" }) };
    case "outcome-word": {
      const { outcome, queried } = reading;
      return {
        outcome,
        remark: remark(queried ? "outcome-queried" : "outcome-word", last!.reason, {
          severity: queried ? "warning" : "change",
          result: outcome,
          ...(queried
            ? {
                expected: "good, contaminated, failed, discarded or growing",
                action: "Look at the tray, then type its outcome without the question mark",
              }
            : {}),
        }),
      };
    }
    case "ambiguous": {
      const open = true;
      const only = plan.mixedTemperatures ? byOnlyScale(text, reading) : undefined;
      return only ?? { open, remark: left(reading) };
    }
    case "unreadable":
      return { remark: left(reading) };
    case "bounds": {
      const { low, high } = reading;
      const impossible = [low, high]
        .map((end) => (end === undefined ? "" : whyImpossible(field, plan.kind, end)))
        .find((why) => why !== "");
      if (impossible !== undefined) {
        return {
          remark: remark("impossible-value", impossible, {
            severity: "error",
            expected: exampleOf[kind],
            action: "Correct the cell",
          }),
        };
      }
      if (kind === "count")
        return {
          remark: remark("bounds", reasons(changes), {
            severity: "warning",
            expected: exampleOf.count,
            action: "Type one number",
          }),
        };
      const bounds = { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
      return {
        bounds,
        remark: remark("bounds", reasons(changes), {
          severity: "warning",
          result: canonicalBounds(bounds, plan.kind),
          expected: exampleOf[kind],
          action: "Type one number if it was measured",
        }),
      };
    }
    case "pool":
    case "value":
    case "approximate": {
      const { value } = reading;
      const impossible = whyImpossible(field, plan.kind, value);
      if (impossible !== "") {
        return {
          remark: remark("impossible-value", impossible, {
            severity: "error",
            expected: exampleOf[kind],
            action: "Correct the cell",
          }),
        };
      }
      if (reading.kind === "pool") {
        return {
          value,
          pool: reading.trays,
          remark: remark("pooled", reasons(changes), {
            severity: "note",
            result: `${reading.trays} trays ${shown(value)}`,
          }),
        };
      }
      if (reading.kind === "approximate") {
        const rule =
          changes.find((change) => change.rule === "approximate" || change.rule === "rough-unit")?.rule ??
          "approximate";
        return {
          value,
          remark: remark(rule, reasons(changes), {
            severity: "warning",
            result: shown(value),
            expected: exampleOf[kind],
            action: "Type the number as measured if it was",
          }),
        };
      }
      if (last === undefined) return { value };
      return { value, remark: remark(last.rule, reasons(changes), { severity: "change", result: shown(value) }) };
    }
  }
}
