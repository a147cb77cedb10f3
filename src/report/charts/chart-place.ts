import type { NumberSettings } from "../format-quantity.ts";
import { type DoseMark, doseMark, mostDoses } from "./chart-palette.ts";

/** Where a chart is drawn: how wide, for whom, and the doses of the book, which keep their look in every chart. */
export interface ChartPlace {
  settings: NumberSettings;
  /** pixels: `plotWidths.wide` or `plotWidths.narrow`; text is never scaled */
  width: number;
  /** doses tried in the book, in mL, ascending */
  doses: ReadonlyArray<number>;
}

/** The two widths a chart is drawn for. */
export const plotWidths = { wide: 560, narrow: 358 } as const;

/** The place of a dose among those tried; -1 where it was not tried. */
export const doseIndex = (dose: number, doses: ReadonlyArray<number>): number =>
  doses.findIndex((tried) => Math.abs(tried - dose) < 1e-9);

/** The dose a group is named after: "9 mL". Undefined where the name is no dose tried. */
export function doseNamed(name: string, doses: ReadonlyArray<number>): number | undefined {
  const [, amount] = /^([\d.]+) mL$/.exec(name) ?? [];
  const dose = Number(amount);
  return amount !== undefined && doseIndex(dose, doses) >= 0 ? dose : undefined;
}

/** How a dose looks in this report. */
export const markOfDose = (dose: number | undefined, doses: ReadonlyArray<number>): DoseMark =>
  doseMark(dose === undefined ? -1 : doseIndex(dose, doses), doses.length);

/** What picks a mark out: "dose-3 cook-C2". Marks carry it as their name; the page reads it as classes. */
export const pickNames = (dose: number | undefined, cook: string | undefined, doses: ReadonlyArray<number>): string =>
  [
    dose === undefined || doseIndex(dose, doses) < 0 ? "" : `dose-${doseIndex(dose, doses) + 1}`,
    cook === undefined ? "" : `cook-${classPart(cook)}`,
  ]
    .filter((name) => name !== "")
    .join(" ");

/** A name as part of a class. */
export const classPart = (name: string): string =>
  [...name].map((letter) => (/[A-Za-z0-9]/.test(letter) ? letter : `_${letter.codePointAt(0)!.toString(36)}`)).join("");

/** The classes of letters in a dose's colour. @example lettersClass(6, [3, 6]) // "pick dose-2 dose-2-letters" */
export function lettersClass(dose: number, doses: ReadonlyArray<number>): string {
  const name = pickNames(dose, undefined, doses);
  return name === "" || doses.length > mostDoses ? "" : `pick ${name} ${name}-letters`;
}
