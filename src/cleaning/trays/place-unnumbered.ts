import { type Flush, sourceOf } from "../../records/tray.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const weights = [
  ["freshGrams", "fresh_g"],
  ["dryGrams", "dry_g"],
] as const;

/** Flush weights rounded one by one may miss a rounded total by this much: 0.5 g, or 1 % of it. */
const agrees = (sum: number, total: number): boolean => Math.abs(sum - total) <= Math.max(0.5, 0.01 * total);

const repeats = (a: Flush, b: Flush): boolean =>
  (["freshGrams", "dryGrams", "harvestedOn"] as const).every(
    (property) => a[property] === undefined || a[property] === b[property],
  );

/**
 * Finds the place of weights without a flush number beside numbered flushes. They are the first flush where that one is
 * missing and they are weights of the same kind; a repetition of it where they are the same; else the tray's totals.
 * @returns the totals that no flush has, to be set on the tray
 */
export function placeUnnumbered(
  draft: TrayDraft,
  log: TrayLog,
): Pick<Flush, "freshGrams" | "dryGrams" | "harvestedOn"> {
  const unnumbered = draft.flushes.find(({ number }) => number === 0);
  if (unnumbered === undefined) return {};
  const numbered = draft.flushes.filter(({ number }) => number !== 0);
  const [only] = numbered;
  if (only === undefined) {
    unnumbered.number = 1;
    return {};
  }
  const first = numbered.find(({ number }) => number === 1);
  const alike = weights.filter(
    ([property]) => unnumbered[property] !== undefined && numbered.some((flush) => flush[property] !== undefined),
  );
  if (first === undefined && alike.length > 0) {
    unnumbered.number = 1;
    return {};
  }
  draft.flushes = numbered;
  if (first !== undefined && repeats(unnumbered, first)) return {};
  if (numbered.length === 1 && alike.length === 0) {
    const { number: _number, ...facts } = unnumbered;
    Object.assign(only, { ...facts, ...only });
    return {};
  }
  const totals: Pick<Flush, "freshGrams" | "dryGrams" | "harvestedOn"> = {};
  if (unnumbered.harvestedOn !== undefined && numbered.every(({ harvestedOn }) => harvestedOn === undefined)) {
    totals.harvestedOn = unnumbered.harvestedOn;
  }
  for (const [property, field] of weights) {
    const total = unnumbered[property];
    if (total === undefined) continue;
    const known = numbered.flatMap((flush) => (flush[property] === undefined ? [] : [flush[property]]));
    if (known.length < numbered.length) {
      totals[property] = total;
      continue;
    }
    const sum = known.reduce((all, weight) => all + weight, 0);
    if (agrees(sum, total)) continue;
    addFlag(draft, "flush-total-disagrees");
    logAtRow(log, draft.trayId, sourceOf(draft), field, {
      rule: "flush-total-disagrees",
      severity: "warning",
      raw: String(total),
      result: String(Number(sum.toPrecision(14))),
      reason: "a weight without a flush number beside numbered flushes is not their total; the flushes are added up",
      expected: "the sum of the flushes, or an empty cell",
      action: "Number the flush, or correct the total",
    });
  }
  return totals;
}
