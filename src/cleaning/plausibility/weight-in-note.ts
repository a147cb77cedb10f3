import { pickingsOf, type Tray } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { toCanonical, unitNamed } from "../../records/words/units.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

const weight = /(\+\s*)?(?<![\p{L}\d.,])(\d+(?:[.,]\d+)?)\s*(g|gr|grams?|gramm|kg|oz|lbs?)(?![\p{L}\d])/giu;
const pickings = new Set(phrasesOf(({ flushes }) => flushes));
/** Weights this near one another are the same one, in g. */
const same = 0.5;

/** The weights in g that a note speaks of, and whether one of them is added to something. */
function weightsIn(note: string): { grams: number[]; adds: boolean } {
  const found = [...note.matchAll(weight)];
  const grams = found.map(([, , number, unit]) =>
    toCanonical(Number(number!.replace(",", ".")), unitNamed(unit!, "mass") ?? { factor: 1, offset: 0 }),
  );
  return { grams, adds: found.some(([, plus]) => plus !== undefined) };
}

/** Whether the weights of a note are those of its tray: each one of them, or all together one. */
function isCounted(grams: ReadonlyArray<number>, tray: Tray): boolean {
  const known = [tray, ...pickingsOf(tray)].flatMap((one) => [one.freshGrams, one.dryGrams]);
  const has = (value: number): boolean => known.some((one) => one !== undefined && Math.abs(one - value) <= same);
  return grams.every(has) || has(grams.reduce((sum, one) => sum + one, 0));
}

/** A second picking, or a part of one, written into the remarks: "+ 40 g second pick". It is not counted. */
export const weightInNote: PlausibilityRule = {
  code: "weight-in-note",
  settings: [],
  check(tray) {
    const { note } = tray;
    if (note === undefined || !/\d/.test(note)) return nothingFound;
    const { grams, adds } = weightsIn(note);
    const ofPicking =
      adds ||
      fold(note)
        .split(" ")
        .some((word) => pickings.has(word));
    if (grams.length === 0 || !ofPicking || isCounted(grams, tray)) return nothingFound;
    return [
      {
        field: "note",
        raw: note,
        reason: "the note speaks of a picking's weight that is not counted",
        expected: "every weight in a column of weights",
        action: "Add it to the tray's weight, or type it in a row or column of its flush",
      },
    ];
  },
};
