import type { AnswerFront, Sentence } from "../../src/analysis.ts";

/**
 * The figure and strip of an answer that is one difference with its range.
 * @param difference value with the ends of its range, in `unit`; ends may be absent
 * @param label what the number is, at most six words: "dry, a good tray"
 * @param zero the name of the line of no effect: "no gain"
 * @example differenceFront({ value: 7.3, low: 4.2, high: 10.4, unit: "g" }, "dry, a good tray", "no gain", ["More."]).figure.from // 4.2
 */
export function differenceFront(
  difference: { value: number; low?: number; high?: number; unit: string },
  label: string,
  zero: string,
  short: Sentence,
): AnswerFront {
  const { value, low, high, unit } = difference;
  const hasRange = Number.isFinite(low) && Number.isFinite(high);
  const range = hasRange ? { from: Math.min(low!, value), to: Math.max(high!, value) } : {};
  return {
    short,
    figure: { label, value, unit, signed: true, ...range },
    strip: { kind: "difference", unit, value, zero, ...range },
  };
}
