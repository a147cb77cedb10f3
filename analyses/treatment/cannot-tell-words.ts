import type { Missing, NextStep } from "../../src/analysis.ts";
import type { Cap, Decision } from "../../src/decisions/verdict/index.ts";
import { capital, inSentence } from "../comparison/level-text.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";

/** One level, and several, as a grower calls them: "dose" and "doses" of inoculum, "strain" and "levels of strain". */
const levelOf = (what: string): string => (what === "inoculum" ? "dose" : what);
const levelsOf = (what: string): string => (what === "inoculum" ? "doses" : `levels of ${what}`);

/** Why nothing is said, as words that follow "because". */
const whyCannot: Readonly<Partial<Record<Cap["reason"], (what: string, other: string) => string>>> = {
  "one-level": (what) => `only one ${what === "inoculum" ? "dose" : `level of ${what}`} has trays with a result`,
  "no-good-trays": () => "no good tray has a result",
  "one-unit-per-level": (what) =>
    `each ${levelOf(what)} had one shelf, jar or chamber of its own, so the two cannot be separated`,
  "one-cook-per-level": (what) =>
    `each ${levelOf(what)} had cooks of its own and too few of them, so cooks and ${what} cannot be separated`,
  calendar: (what) => `${what} followed the calendar, so anything else that changed with time fits as well`,
  "calendar-by-row-order": (what) =>
    `${what} followed the order of the rows and no dates tell their order, so anything else that changed with time fits as well`,
  "calendar-by-cook-number": (what) =>
    `${what} followed the numbers of the cooks and no dates tell their order, so anything else that changed with time fits as well`,
  "levels-follow-rows": (what) =>
    `trays of one ${levelOf(what)} stand together in the sheet and may be cooks of their own`,
  "levels-between-row-blocks": (what) =>
    `trays of one ${levelOf(what)} stand together in the sheet, and neither cook nor date tells them from cooks of their own`,
  "levels-follow-rows-of-one-day": (what) =>
    `${what} followed the order of the rows of each day, so cooks of one day cannot be separated from ${what}`,
  "tied-to-the-other-factor": (what, other) => `${what} changed together with ${other}`,
};

const severalInCook = (what: string): string => `two ${levelsOf(what)} in each of two cooks`;
const intoEach = (what: string): string => `Put two or more ${levelsOf(what)} into each cook`;
const cookOfEach = (): string => "the cook or inoculation date of each tray";

/** What would lift a cap: what to do, what else would do, and what is missing, as words that follow "it needs". */
const remedyOf: Readonly<
  Partial<Record<Cap["reason"], { act: string | typeof intoEach; orElse?: string; need: (what: string) => string }>>
> = {
  "one-level": { act: (what) => `Give trays of one cook two or more ${levelsOf(what)}`, need: severalInCook },
  "no-good-trays": { act: "Weigh each tray at harvest and type the weight in", need: () => "the weight of each tray" },
  "one-unit-per-level": {
    act: "Swap shelves, jars or chambers between levels each cook",
    orElse: ", or give each level two of them",
    need: (what) => `each ${levelOf(what)} on two shelves, in two chambers or from two jars`,
  },
  "one-cook-per-level": { act: intoEach, need: severalInCook },
  calendar: {
    act: intoEach,
    orElse: ", or state doses_drawn_by_lot = yes in settings.csv where chance chose what each cook got",
    need: severalInCook,
  },
  "calendar-by-row-order": {
    act: "Type each cook's own inoculation date",
    orElse: ", and vary it within each cook",
    need: severalInCook,
  },
  "calendar-by-cook-number": {
    act: "Type each cook's own inoculation date",
    orElse: ", and vary it within each cook",
    need: severalInCook,
  },
  "levels-follow-rows": { act: "Write down the cook of each tray", need: cookOfEach },
  "levels-between-row-blocks": {
    act: "Write down the cook or the inoculation date of each tray",
    need: cookOfEach,
  },
  "levels-follow-rows-of-one-day": { act: "Write down the cook of each tray", need: cookOfEach },
  "tied-to-the-other-factor": {
    act: "Vary one thing at a time",
    orElse: ", or every level of one with every level of the other",
    need: (what) => `${what} varied by itself`,
  },
};

/** Why a decision says no more than it does; undefined where nothing but the trays' scatter limits it. */
export function capOf({ caps, verdict }: Decision): Cap["reason"] | undefined {
  if (verdict !== "cannot-tell") return caps.find(({ at }) => at === verdict)?.reason ?? caps[0]?.reason;
  return caps.find(({ at }) => at === "cannot-tell")?.reason;
}

/**
 * Why nothing can be said, and what would change that.
 * @param beside what else varied in the same cooks
 */
export function cannotTellWords(
  what: string,
  decision: Decision,
  beside?: TreatmentDecision["beside"],
): { reason: string; remedy: string; next: NextStep; missing: Missing } {
  const first = beside?.takenOut[0];
  const other = first === undefined ? "something else that was varied" : inSentence(first.factor.label);
  const cap = capOf(decision) ?? "one-level";
  const reason = whyCannot[cap]?.(what, other) ?? `too few trays of ${what} have a result`;
  const {
    act: how,
    orElse = "",
    need,
  } = remedyOf[cap] ?? { act: (one: string) => `${intoEach(one)} of two or more`, need: severalInCook };
  const act = typeof how === "string" ? how : how(what);
  return {
    reason,
    remedy: `${act}${orElse}.`,
    next: { rank: "trial", act: [`${act}.`], because: [`${capital(reason.split(", so ")[0]!)}.`], see: "waiting" },
    missing: { kind: cap === "one-level" ? "vary" : "layout", need: need(what) },
  };
}
