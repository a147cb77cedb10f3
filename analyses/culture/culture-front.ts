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

/** What the front shows of drift: the strongest finding. @param isClear whether it stands with all measures allowed for */
export function cultureFront({ label, estimate, direction, step, worse }: Finding, isClear: boolean): AnswerFront {
  const measure = label.split(" ").slice(0, 3).join(" ");
  const short = isClear
    ? `The culture ${worse ? "is getting worse" : "changes, not for the worse"}: ${measure} ${direction > 0 ? "goes up" : "goes down"}.`
    : "No drift of the culture is shown.";
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
