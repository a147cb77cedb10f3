import type { AnswerFront, Missing } from "../../src/analysis.ts";
import type { Verdict } from "../../src/decisions/verdict/index.ts";
import { differenceFront } from "../comparison/difference-front.ts";

/** What the interplay waits for: a second supplement or amount, or a trial laid out for the second thing there is. */
export const interplayMissing = (second: string | undefined): Missing =>
  second !== undefined
    ? { kind: "layout", need: `every dose with every ${second} in each of three cooks` }
    : { kind: "vary", need: "a second supplement, grade or amount" };

/**
 * What the front shows of a dearer supplement.
 * @param extra money left more by a started tray; @param dear, cheap the two levels by name
 */
export function dearerFront(
  extra: { value: number; low: number; high: number },
  dear: string,
  cheap: string,
  verdict: Verdict,
): AnswerFront {
  const [first, second] = [dear, cheap].map((name) => name.split(" ").slice(0, 3).join(" "));
  const pays = extra.value > 0;
  const short = {
    settled: pays
      ? `${first} pays: it leaves more than it costs over ${second}.`
      : `${first} does not pay against ${second}.`,
    leaning: `${first} probably ${pays ? "pays" : "does not pay"} against ${second}.`,
    open: `Whether ${first} pays against ${second} is not known yet.`,
    "cannot-tell": `Whether ${first} pays cannot be said.`,
  }[verdict];
  return {
    ...differenceFront({ ...extra, unit: "money" }, "left more, a tray", "no gain", [
      short.replace(/^./, (letter) => letter.toUpperCase()),
    ]),
    ...(verdict === "settled" && pays
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

/** How an interaction is judged: both to be looked at together, each apart, or not known. */
export type Judged = "together" | "apart" | "open";

/**
 * What the front shows of dose and a second factor together.
 * @param change the largest change of one thing's difference by the other, in g a tray
 */
export function interplayFront(
  change: { value: number; low: number; high: number },
  unit: string,
  what: string,
  judged: Judged,
): AnswerFront {
  const short = {
    together: `Dose and ${what} have to be judged together.`,
    apart: `Dose and ${what} can be judged apart.`,
    open: `Whether dose and ${what} depend on one another is not known yet.`,
  }[judged];
  return differenceFront({ ...change, unit }, "change of the dose's gain", "no change", [short]);
}
