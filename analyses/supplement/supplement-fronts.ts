import type { AnswerFront, Missing } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";

/** What the interplay waits for: a second supplement or amount, or a trial laid out for it. */
export const interplayMissing = (isVaried: boolean): Missing =>
  isVaried
    ? { kind: "layout", need: "every dose with every grade in each of three cooks" }
    : { kind: "vary", need: "a second supplement, grade or amount" };

/**
 * What the front shows of a dearer supplement.
 * @param extra money left more by a started tray; @param dear, cheap the two levels by name
 */
export function dearerFront(
  extra: { value: number; low: number; high: number },
  dear: string,
  cheap: string,
  isSure: boolean,
): AnswerFront {
  const [first, second] = [dear, cheap].map((name) => name.split(" ").slice(0, 3).join(" "));
  const short = isSure
    ? extra.value > 0
      ? `${first} pays: it leaves more than it costs over ${second}.`
      : `${first} does not pay against ${second}.`
    : `Whether ${first} pays against ${second} is not shown yet.`;
  return {
    ...differenceFront({ ...extra, unit: "money" }, "left more, a tray", "no gain", [
      short.replace(/^./, (letter) => letter.toUpperCase()),
    ]),
    ...(isSure && extra.value > 0
      ? {
          next: [
            {
              rank: "dose" as const,
              act: [`Keep to ${first}.`],
              because: ["It leaves ", { value: extra.value, unit: "money" }, " more a tray."],
            },
          ],
        }
      : {}),
  };
}

/**
 * What the front shows of dose and a second factor together.
 * @param change the largest change of one dose's gain by the other, in g a tray
 */
export function interplayFront(
  change: { value: number; low: number; high: number },
  unit: string,
  what: string,
  certainty: "settled" | "leaning" | "open",
  isApart: boolean,
): AnswerFront {
  const short =
    certainty === "settled"
      ? isApart
        ? `Dose and ${what} can be judged apart.`
        : `Dose and ${what} have to be judged together.`
      : `Dose seems to work alike with every ${what}; a difference is not ruled out.`;
  return differenceFront({ ...change, unit }, "change of the dose's gain", "no change", [short]);
}
