import { type Flush, isLoss, pickingsOf, sourceOf, sourcesOf, type Tray } from "../../records/tray.ts";
import { weights } from "../../records/tray-property.ts";
import { addFlag } from "./add-flag.ts";
import { isPicked, logEmptyFlush } from "./merge-flushes.ts";
import { placeUnnumbered } from "./place-unnumbered.ts";
import { settleOutcome } from "./settle-outcome.ts";
import { noFlushes, type TrayDraft } from "./tray-draft.ts";
import type { TrayEvidence } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";
import { keepWeightsInReach } from "./weights-in-reach.ts";

/** The total of numbers, rounded to 14 digits so that flushes add up the same in any order. */
const total = (values: ReadonlyArray<number>): number =>
  Number(values.reduce((sum, value) => sum + value, 0).toPrecision(14));

function addUp(draft: TrayDraft, property: "freshGrams" | "dryGrams", field: "fresh_g" | "dry_g", log: TrayLog): void {
  const { flushes } = draft;
  const known = flushes.flatMap((flush) => (flush[property] === undefined ? [] : [flush[property]]));
  if (known.length === 0) return;
  const sum = known.length === 1 ? known[0]! : total(known);
  if (known.length === flushes.length) {
    const limits = draft.bounds[field];
    if (limits === undefined) {
      draft[property] = sum;
      return;
    }
    // a flush of which only limits are known comes on top of the others
    const { low = 0, high } = limits;
    const together = { low: total([sum, low]), ...(high === undefined ? {} : { high: total([sum, high]) }) };
    draft.bounds = { ...draft.bounds, [field]: together };
    return;
  }
  const open = draft.bounds[field];
  const oneOpen = known.length === flushes.length - 1;
  const bounds = {
    low: total([sum, open?.low ?? 0]),
    ...(oneOpen && open?.high !== undefined ? { high: total([sum, open.high]) } : {}),
  };
  draft.bounds = { ...draft.bounds, [field]: bounds };
  addFlag(draft, "flush-without-weight");
  logAtRow(log, draft.trayId, sourcesOf(draft).at(-1)!, field, {
    rule: "flush-without-weight",
    severity: "warning",
    result: `>${bounds.low}`,
    reason: "a flush has no weight, so the tray's total is only known to be more than the others together",
    expected: "a weight for every flush",
    action: "Type the missing weight, or 0 if nothing was picked",
  });
}

/** A total that was weighed needs no limits. */
function takeTotal(
  draft: TrayDraft,
  property: "freshGrams" | "dryGrams",
  field: "fresh_g" | "dry_g",
  grams: number,
): void {
  draft[property] = grams;
  if (draft.bounds[field] === undefined) return;
  const { [field]: _limits, ...bounds } = draft.bounds;
  draft.bounds = bounds;
}

/** A lost tray has no saleable weight; what was typed stays in the log. A failed one that was weighed at 0 keeps its 0. */
function dropWeights(draft: TrayDraft, log: TrayLog): void {
  const { flushes } = draft;
  const isZeroThroughout = flushes.every(({ freshGrams, dryGrams }) => !freshGrams && !dryGrams);
  if (draft.outcome === "failed" && isZeroThroughout && !draft.freshGrams && !draft.dryGrams) return;
  for (const [property, field] of weights) {
    const own = flushes.flatMap((flush) => (flush[property] === undefined ? [] : [flush[property]]));
    if (own.length === 0 && draft[property] !== undefined) own.push(draft[property]);
    for (const weight of own) {
      const isZero = weight === 0;
      if (!isZero) addFlag(draft, "weight-of-lost-tray");
      logAtRow(log, draft.trayId, sourceOf(draft), field, {
        rule: "weight-of-lost-tray",
        severity: isZero ? "change" : "warning",
        raw: String(weight),
        reason: "the tray was lost: it stays in the count, with no saleable weight",
        expected: isZero ? "" : "an empty cell, or the outcome good",
        action: isZero ? "" : "Correct the outcome if the tray was sold from",
      });
    }
    draft[property] = undefined;
  }
  draft.flushes = flushes.flatMap(({ number, harvestedOn }) =>
    harvestedOn === undefined ? [] : [{ number, harvestedOn }],
  );
  if (draft.bounds.fresh_g !== undefined || draft.bounds.dry_g !== undefined) {
    const { fresh_g: _fresh, dry_g: _dry, ...bounds } = draft.bounds;
    draft.bounds = bounds;
  }
}

const noTotals = Object.freeze({});

/** The only flush of a tray is its first, unless it says otherwise. */
function numberOnly(flush: Flush): ReturnType<typeof placeUnnumbered> {
  if (flush.number === 0) flush.number = 1;
  return noTotals;
}

const byNumber = (a: Flush, b: Flush): number => a.number - b.number;

/** Finds the place of every flush of a tray and adds their weights up. */
function settleFlushes(draft: TrayDraft, log: TrayLog): void {
  // a flush that has only a number has not been picked yet
  const empty = draft.flushes.flatMap((flush) => (isPicked(flush) ? [] : [flush.number]));
  draft.flushes = draft.flushes.filter(isPicked);
  if (draft.flushes.length === 0) return;
  const totals = draft.flushes.length === 1 ? numberOnly(draft.flushes[0]!) : placeUnnumbered(draft, log, empty);
  const { flushes } = draft;
  if (flushes.length > 1) flushes.sort(byNumber);
  if (totals.freshGrams === undefined) addUp(draft, "freshGrams", "fresh_g", log);
  else takeTotal(draft, "freshGrams", "fresh_g", totals.freshGrams);
  if (totals.dryGrams === undefined) addUp(draft, "dryGrams", "dry_g", log);
  else takeTotal(draft, "dryGrams", "dry_g", totals.dryGrams);
  draft.harvestedOn = totals.harvestedOn;
  for (const { harvestedOn } of flushes) {
    if (harvestedOn !== undefined && (draft.harvestedOn === undefined || harvestedOn < draft.harvestedOn)) {
      draft.harvestedOn = harvestedOn;
    }
  }
  if (isOnlyPicking(draft, flushes)) draft.flushes = noFlushes;
}

/** Whether a tray's own weights and day say all of its pickings. */
const isOnlyPicking = ({ freshGrams, dryGrams, harvestedOn }: TrayDraft, [first, ...others]: Flush[]): boolean =>
  others.length === 0 &&
  first!.number === 1 &&
  first!.freshGrams === freshGrams &&
  first!.dryGrams === dryGrams &&
  first!.harvestedOn === harvestedOn;

/**
 * Turns a draft of everything known of one tray into its record: adds up its flushes, and settles its outcome where no
 * one typed it. Changes the draft in place.
 */
export function finishTray(draft: TrayDraft, log: TrayLog, evidence: TrayEvidence | undefined): Tray {
  // by far the most trays are picked once, without a number: their weights are their own already
  if (draft.flushes.length > 0) {
    // the only row of a tray may be about its second flush
    if (draft.flushes[0]!.number > 1 && sourcesOf(draft).length === 1) logEmptyFlush(draft, evidence, log);
    settleFlushes(draft, log);
  }
  // a loss typed with a doubt may still be asked about, with its weights
  const isOver = isLoss(draft.outcome) && evidence?.queried !== true;
  const picked = !isOver && keepWeightsInReach(draft, log);
  const known = picked ? { ...evidence, dated: true } : evidence;
  // by far the most trays have a plain outcome, and nothing else to be weighed against it
  const isNoted =
    draft.outcome === "good" && (draft.note !== undefined || draft.freshGrams === 0 || draft.dryGrams === 0);
  if (draft.outcome === undefined || known !== undefined || isNoted) settleOutcome(draft, log, known);
  if (isLoss(draft.outcome) && pickingsOf(draft).length > 0) dropWeights(draft, log);
  return draft as Tray;
}
