import type { AnswerFront, Estimate, Missing } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";

/** What drift waits for: notes of the jars, or jars tried side by side. */
export const cultureMissing = (isRecorded: boolean): Missing =>
  isRecorded
    ? { kind: "layout", need: "old and young jars side by side in the same cooks" }
    : { kind: "record", need: "the age and transfers of each culture jar" };

/** What one measure does with generation or age. */
interface Finding {
  /** "generation" or "day of age" */
  step: string;
  label: string;
  estimate: Estimate;
  /** +1 when the measure goes up with age, -1 when down */
  direction: number;
  /** whether that is the bad way */
  worse: boolean;
}

/** How sure a drift is: beyond chance with all measures allowed for, alone, or not. */
export type Drift = "clear" | "perhaps" | "not shown";

/** What the front shows of drift: the strongest finding. */
export function cultureFront({ label, estimate, direction, step, worse }: Finding, drift: Drift): AnswerFront {
  const measure = label.split(" per ")[0]!;
  const [is, changes] = drift === "clear" ? ["is getting", "changes"] : ["may be getting", "may change"];
  const short =
    drift === "not shown"
      ? "No drift of the culture is shown."
      : `The culture ${worse ? `${is} worse` : `${changes}, not for the worse`}: ${measure} ${direction > 0 ? "goes up" : "goes down"}.`;
  const { value, low, high, unit } = estimate;
  if (unit !== "factor")
    return differenceFront(
      { value, ...(low === undefined || high === undefined ? {} : { low, high }), unit },
      `per ${step}`,
      "no change",
      [short],
    );
  const shown = low === undefined || high === undefined ? {} : { from: low, to: high };
  return {
    short: [short],
    figure: { label: `times per ${step}`, value, unit, digits: 3, ...shown },
    strip: { kind: "amount", unit, value, ...shown, others: [{ name: "no change", value: 1 }] },
  };
}
