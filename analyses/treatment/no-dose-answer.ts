import type { CannotTell, Missing, Sentence } from "../../src/analysis.ts";
import type { SeenDose } from "../../src/decisions/dose/index.ts";
import { counted } from "../../src/records/counted.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import type { NoBookDose } from "./book-dose-decision.ts";
import { cannotTellWords } from "./cannot-tell-words.ts";
import { seenTable } from "./dose-tables.ts";
import { amountWord, dosePart } from "./dose-words.ts";

/** The dose of which most was left by itself, as far as was seen. */
function seenBest({ found, priced, thing, weight }: NoBookDose): Sentence {
  const seen = (found?.seen ?? []).filter(
    (one): one is SeenDose & { left: NonNullable<SeenDose["left"]> } => one.left !== undefined,
  );
  const best = seen.reduce<(typeof seen)[number] | undefined>(
    (top, one) => (top === undefined || one.left.mean > top.left.mean ? one : top),
    undefined,
  );
  if (best === undefined || seen.length < 2) return [];
  return [
    " Seen so far: most at ",
    dosePart({ thing: thing! }, best.dose),
    ", ",
    { value: best.left.mean, unit: priced ? "money" : "g" },
    priced ? " left of a started tray." : ` ${weight} of a started tray.`,
  ];
}

/** Why, what would settle it, and what is missing for it. */
function wordsOf(of: NoBookDose): { reason: string; settle: string; missing: Missing } {
  const what = amountWord(of);
  const { why, found } = of;
  switch (why) {
    case "all-lost":
      return {
        reason: "every finished tray was lost",
        settle: "Find out why before the next cook: see the question about losses.",
        missing: { kind: "trays", need: "trays that are picked and weighed" },
      };
    case "not-weighed":
      return {
        reason: "no good tray has a weight",
        settle: "Weigh each tray at harvest, fresh and dry, and type the weights in.",
        missing: { kind: "record", need: "the weight of each harvested tray" },
      };
    case "nothing-varied":
    case "one-dose":
    case "no-trays":
      return {
        reason: "the finished trays do not differ in any amount that is written down",
        settle: "Give trays of one cook two or more doses, and write them down.",
        missing: { kind: "vary", need: "two or more doses in the same cook" },
      };
    case "too-few-weighed": {
      const { weighed, needed } = found as { weighed: number; needed: number };
      return {
        reason: `only ${counted(weighed, "finished tray has", "finished trays have")} a weight, and ${needed} are needed`,
        settle: "Grow more trays of what you tried; a second cook tells most.",
        missing: { kind: "trays", need: `${needed - weighed} more weighed trays of what was tried` },
      };
    }
    case "weights-do-not-vary":
      return {
        reason: "trays treated alike all weigh the same, so they were not weighed one by one",
        settle: "Weigh each tray on its own.",
        missing: { kind: "record", need: "the weight of each tray on its own" },
      };
    default: {
      const { reason, remedy, missing } = cannotTellWords(what, of.verdict!, of.beside);
      return { reason, settle: remedy, missing };
    }
  }
}

/**
 * The outcome of a question about a dose where there is no decision, with the means that were seen.
 * @param start "Cannot tell which dose to use"; @param asked the question in the thing's own words
 */
export function noDoseAnswer(of: NoBookDose, start: string, asked: Pick<CannotTell, "asked">): CannotTell {
  const { reason, settle, missing } = wordsOf(of);
  return noAnswer([`${start}: ${reason}.`, ...seenBest(of)], [settle], {
    ...asked,
    missing,
    tables: seenTable(of),
    excluded: of.excluded,
    short: [
      of.found === undefined
        ? `Which ${amountWord(of)} to use is not known.`
        : `Too little to choose by; means are below.`,
    ],
  });
}
