import { type Flush, sourceOf } from "../../records/tray.ts";
import { weights } from "../../records/tray-property.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** Flush weights rounded one by one may miss a rounded total by this much: 0.5 g, or 1 % of it. */
const agrees = (sum: number, total: number): boolean => Math.abs(sum - total) <= Math.max(0.5, 0.01 * total);

const repeats = (a: Flush, b: Flush): boolean =>
  (["freshGrams", "dryGrams", "harvestedOn"] as const).every(
    (property) => a[property] === undefined || a[property] === b[property],
  );

/** Flushes that have a column of their own beside one for all, or a row, and nothing in it. */
function blankFlushes(
  draft: TrayDraft,
  log: TrayLog,
  field: "fresh_g" | "dry_g",
  empty: ReadonlyArray<number>,
): number[] {
  const { file } = sourceOf(draft);
  const hasColumn = (flush: number): boolean => log.headerOf(file, field, flush) !== log.headerOf(file, field);
  const taken = new Set(draft.flushes.map(({ number }) => number));
  return [1, 2, 3, 4, 5, 6, 7, 8, 9].filter(
    (flush) => !taken.has(flush) && (empty.includes(flush) || hasColumn(flush)),
  );
}

/**
 * Settles what a weight without a flush number is beside numbered ones. It is the tray's total where one of them has no
 * weight, or where it is more than they add up to and a flush is blank, which is put among them. Else it is not needed, or
 * wrong, which is told in the log.
 * @returns whether it is the total
 */
function settleTotal(
  draft: TrayDraft,
  log: TrayLog,
  [property, field]: (typeof weights)[number],
  total: number,
  empty: ReadonlyArray<number>,
): boolean {
  const known = draft.flushes.flatMap((flush) => (flush[property] === undefined ? [] : [flush[property]]));
  if (known.length < draft.flushes.length) return true;
  const sum = known.reduce((all, weight) => all + weight, 0);
  if (agrees(sum, total)) return false;
  const blank = blankFlushes(draft, log, field, empty);
  if (total > sum && blank.length > 0) {
    draft.flushes = [...draft.flushes, ...blank.map((number) => ({ number }))];
    return true;
  }
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
  return false;
}

/**
 * Finds the place of weights without a flush number beside numbered flushes. They are the first flush where that one is
 * missing and they are weights of the same kind; a repetition of it where they are the same; else the tray's totals, also
 * of flushes whose own cells are blank.
 * @param empty numbers of flushes that have a row with nothing picked in it
 * @returns the totals that no flush has, to be set on the tray
 */
export function placeUnnumbered(
  draft: TrayDraft,
  log: TrayLog,
  empty: ReadonlyArray<number> = [],
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
  const isFirst = first === undefined && alike.length > 0;
  if (isFirst && !alike.some(([, field]) => blankFlushes(draft, log, field, empty).includes(1))) {
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
  for (const weight of weights) {
    const total = unnumbered[weight[0]];
    if (total !== undefined && settleTotal(draft, log, weight, total, empty)) totals[weight[0]] = total;
  }
  return totals;
}
