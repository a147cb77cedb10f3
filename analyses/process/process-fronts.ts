import type { AnswerFront, Missing } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";

/** What the front shows of the process: one mark for each measure watched. @param names all measures; @param moved those that changed; @param perhaps one that would have, alone */
export function steadyFront(
  names: ReadonlyArray<string>,
  moved: ReadonlyArray<string>,
  lots: number,
  lotName: string,
  perhaps: string | undefined,
): AnswerFront {
  return {
    short: [
      perhaps !== undefined
        ? `Perhaps not steady: ${perhaps}.`
        : moved.length === 0
          ? `${names.length === 1 ? "One measure" : `${names.length} measures`} over ${lots} ${lotName}s; none has moved beyond chance.`
          : `${moved[0]!} moved beyond chance${moved.length > 1 ? `, and ${moved.length - 1} more` : ""}.`.replace(
              /^./,
              (letter) => letter.toUpperCase(),
            ),
    ],
    figure: { label: "moved beyond chance", value: moved.length, of: names.length, unit: "measures" },
    strip: { kind: "measures", measures: names.map((name) => ({ name, moved: moved.includes(name) })) },
  };
}

/** What later flushes wait for. */
export const flushMissing: Missing = { kind: "record", need: "one row for each picking of a tray, with its date" };

/** What the front shows of later flushes. @param rates the comparison that decides, a place and day */
export function flushFront(
  rates: { difference: number; low: number; high: number },
  unit: string,
  certainty: "settled" | "leaning" | "open",
): AnswerFront {
  const { difference: value, low, high } = rates;
  const seems = certainty === "settled" ? ["are", "gives"] : ["seem", "seems to give"];
  const short =
    certainty === "open"
      ? "Whether later flushes are worth their place is not shown."
      : value > 0
        ? `Later flushes ${seems[0]} worth their place on the shelf.`
        : `A new tray in the place ${seems[1]} more than a later flush.`;
  return differenceFront({ value, low, high, unit }, "a place and day", "no gain", [short]);
}
