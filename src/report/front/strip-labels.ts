import { letterWidth } from "../charts/letter-width.ts";

/** A label under or over a strip's ruler. */
export interface StripLabel {
  x: number;
  text: string;
  look?: string;
  /** a higher number is kept where two would touch */
  weight?: number;
}

/** A label with its place. */
export interface PlacedLabel extends StripLabel {
  anchor: "start" | "middle" | "end";
}

/** letters of a strip, in pixels */
export const stripLetters = 12.5;
const gap = 6;

/**
 * Labels of one line that do not touch and do not leave the picture: heavier ones first; those without room are left out.
 * @param width of the picture in pixels
 */
export function labelsThatFit(labels: ReadonlyArray<StripLabel>, width: number): PlacedLabel[] {
  const taken: { from: number; to: number }[] = [];
  const placed: PlacedLabel[] = [];
  for (const label of labels.toSorted((a, b) => (b.weight ?? 0) - (a.weight ?? 0))) {
    const wide = letterWidth(label.text, stripLetters) * (label.look?.includes("tick") ? 1.12 : 1.04);
    if (label.text === "" || wide > width) continue;
    const from = Math.min(Math.max(0, label.x - wide / 2), width - wide);
    const box = { from: from - gap / 2, to: from + wide + gap / 2 };
    if (taken.some((other) => other.from < box.to && box.from < other.to)) continue;
    taken.push(box);
    const anchor = label.x - wide / 2 < 0 ? "start" : label.x + wide / 2 > width ? "end" : "middle";
    placed.push({ ...label, anchor, x: anchor === "start" ? 0 : anchor === "end" ? width : label.x });
  }
  return placed.sort((a, b) => a.x - b.x);
}
