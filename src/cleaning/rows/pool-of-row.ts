import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { eachRule } from "../rules/per-tray.ts";
import { noBounds, noFlags, noFlushes, type TrayDraft } from "../trays/tray-draft.ts";
import type { RowRemarks } from "./row-remarks.ts";
import type { RowState } from "./row-state.ts";

const eachPhrases: ReadonlySet<string> = new Set(phrasesOf(({ each }) => each));

const nothingPicked = {
  ...{
    freshGrams: undefined,
    dryGrams: undefined,
    finalMoisture: undefined,
    harvestedOn: undefined,
    driedOn: undefined,
  },
  ...{ fruitingOn: undefined, colonisedOn: undefined, daysToColonise: undefined, daysToHarvest: undefined },
  ...{ note: undefined, flushes: noFlushes, bounds: noBounds, flags: noFlags },
} as unknown as Partial<TrayDraft>;

/** How many trays of the row were lost beside others that were picked; where all were, that is the row's outcome. */
export function lostOfRow(state: RowState, remarks: RowRemarks): number {
  const { lost } = state;
  if (lost === undefined) return 0;
  const [started = 0] = state.counts();
  const isPart = lost.trays < started;
  if (!isPart) state.typed = lost.trays === started ? lost.outcome : "asked";
  const asks = state.typed === "asked";
  remarks.add("", String(lost.trays), {
    rule: "lost-in-part",
    severity: asks ? "warning" : "change",
    reason: asks
      ? "a number beside a count of trays: so many were lost, which are more than the row counts"
      : "a number beside a count of trays: so many of them were lost; the row's weight is of the others",
    result: asks ? "asked" : `${lost.trays} ${lost.outcome}`,
    expected: asks ? "at most as many lost trays as the row has" : "",
    action: asks ? "Correct the number, or the count of trays" : "",
  });
  return isPart ? lost.trays : 0;
}

/** A total of 0 beside columns of flushes that are all blank: what a formula makes of nothing. */
export function dropEmptyTotals(state: RowState, remarks: RowRemarks): void {
  if (!state.hasFlushes || (state.fresh !== 0 && state.dry !== 0)) return;
  const sides = state.sideFlushes ?? [];
  const [hasFresh, hasDry] = [
    sides.some((side) => side.freshGrams !== undefined),
    sides.some((side) => side.dryGrams !== undefined),
  ];
  for (const [weight, hasOwn] of [
    ["fresh", hasFresh],
    ["dry", hasDry],
  ] as const) {
    if (hasOwn || state[weight] !== 0) continue;
    state[weight] = undefined;
    remarks.add("", "0", {
      rule: "empty-total",
      severity: "change",
      reason: "a total of 0 beside flushes that are all blank: nothing weighed, not a weight of 0",
      ...{ result: "", expected: "", action: "" },
    });
  }
}

/** Makes weights said to be of each tray those of all of them. */
export function takeOfEach(
  state: RowState,
  remarks: RowRemarks,
  ofEach: ReadonlyArray<"fresh" | "dry">,
  trays: number,
): void {
  const byNote = state.note !== undefined && eachPhrases.has(fold(state.note));
  const each = new Set(byNote ? (["fresh", "dry"] as const) : [...(state.each ?? []), ...ofEach]);
  for (const weight of each) {
    const grams = state[weight];
    if (grams === undefined) continue;
    state[weight] = Number((grams * trays).toPrecision(14));
    if (state.each?.includes(weight)) continue;
    remarks.add("", byNote ? state.note! : String(grams), {
      rule: eachRule,
      severity: "change",
      reason: `the ${byNote ? "remark" : "header"} says that the weight is of each tray of the row`,
      result: String(state[weight]),
      expected: "",
      action: "",
    });
  }
  // said of weights that are now of all of them
  if (byNote) state.note = undefined;
}

/** The trays of a row of several that were lost: they share its set-up, and none of what came of the others. */
export const lostPart = (draft: TrayDraft, trays: number, outcome: TrayDraft["outcome"]): TrayDraft => ({
  ...draft,
  trayId: `${draft.trayId}, lost`,
  traysInPool: trays,
  outcome,
  ...nothingPicked,
});
