import type { Cap, Decision } from "../../src/decisions/verdict/index.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";

/** Why nothing is said, as words that follow "because". */
const whyCannot: Readonly<Partial<Record<Cap["reason"], (what: string, other: string) => string>>> = {
  "one-level": (what) => `only one level of ${what} has trays with a result`,
  "no-good-trays": () => "no good tray has a result",
  "one-unit-per-level": (what) =>
    `each ${what} had one shelf, jar or chamber of its own, so the two cannot be separated`,
  "one-cook-per-level": (what) =>
    `each ${what} had cooks of its own and too few of them, so cooks and ${what} cannot be separated`,
  calendar: (what) => `${what} followed the calendar, so anything else that changed with time fits as well`,
  "calendar-by-row-order": (what) =>
    `${what} followed the order of the rows and no dates tell their order, so anything else that changed with time fits as well`,
  "calendar-by-cook-number": (what) =>
    `${what} followed the numbers of the cooks and no dates tell their order, so anything else that changed with time fits as well`,
  "levels-follow-rows": (what) => `trays of one ${what} stand together in the sheet and may be cooks of their own`,
  "levels-between-row-blocks": (what) =>
    `trays of one ${what} stand together in the sheet, and neither cook nor date tells them from cooks of their own`,
  "levels-follow-rows-of-one-day": (what) =>
    `${what} followed the order of the rows of each day, so cooks of one day cannot be separated from ${what}`,
  "tied-to-the-other-factor": (what, other) => `${what} changed together with ${other}`,
};

/** What would lift a cap, as words that follow a verb. */
const remedyOf: Readonly<Partial<Record<Cap["reason"], string>>> = {
  "one-level": "Give trays of one cook two or more levels.",
  "no-good-trays": "Weigh each tray at harvest and type the weight in.",
  "one-unit-per-level": "Give each level two or more shelves, jars or chambers in each cook.",
  "one-cook-per-level": "Put two or more levels into each cook.",
  calendar:
    "Put two or more levels into each cook, or say doses_drawn_by_lot,yes where chance chose each cook's level.",
  "calendar-by-row-order": "Type each cook's own inoculation date, and put two or more levels into each cook.",
  "calendar-by-cook-number": "Type each cook's own inoculation date, and put two or more levels into each cook.",
  "levels-follow-rows": "Write down the cook of each tray.",
  "levels-between-row-blocks": "Write down the cook or the inoculation date of each tray.",
  "levels-follow-rows-of-one-day": "Write down the cook of each tray.",
  "tied-to-the-other-factor": "Vary one thing at a time, or every level of one with every level of the other.",
};

/** Why a decision says no more than it does; undefined where nothing but the trays' scatter limits it. */
export function capOf({ caps, verdict }: Decision): Cap["reason"] | undefined {
  if (verdict !== "cannot-tell") return caps.find(({ at }) => at === verdict)?.reason ?? caps[0]?.reason;
  return caps.find(({ at }) => at === "cannot-tell")?.reason;
}

/** @param beside what else varied in the same cooks */
export function cannotTellWords(
  what: string,
  decision: Decision,
  beside?: TreatmentDecision["beside"],
): { reason: string; remedy: string } {
  const first = beside?.takenOut[0];
  const other = first === undefined ? "something else that was varied" : inSentence(first.factor.label);
  const cap = capOf(decision) ?? "one-level";
  return {
    reason: whyCannot[cap]?.(what, other) ?? `too few trays of ${what} have a result`,
    remedy: remedyOf[cap] ?? "Put two or more levels into each of two or more cooks.",
  };
}
