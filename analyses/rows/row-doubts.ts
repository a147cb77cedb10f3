import type { Trial } from "../../src/analysis.ts";
import { batchFactor, doseFactor } from "../../src/design/factor.ts";
import { doubtfulTrays, sheetWideFlags, unflaggedTrays } from "../../src/records/doubtful-trays.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type Outlier, robustOutliers } from "../../src/statistics/descriptive/robust-outliers.ts";
import { colonisationDays } from "../comparison/tray-days.ts";
import { type TrayResponse, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { type BookFact, bookFacts, factChanged } from "./book-facts.ts";

/** Trays with rows in doubt, and the main figures with and without them. */
export interface Doubts {
  flagged: ReadonlyArray<Tray>;
  /** what is asked of most trays at once, and of how many */
  wide: { trays: number; reason: string } | undefined;
  odd: { response: TrayResponse; outliers: Outlier[] }[];
  doubtful: { tray: Tray; why: string }[];
  all: BookFact[];
  without: BookFact[];
  moved: BookFact[];
  movedByFlagged: BookFact[];
  /** doubtful only because they lie far from the rest */
  farOnly: number;
}

function oddValues(trays: ReadonlyArray<Tray>, response: TrayResponse, threshold: number): Outlier[] {
  return robustOutliers(
    trays.flatMap((tray) => {
      const value = response.of(tray);
      if (value === undefined || tray.traysInPool > 1) return [];
      return [{ tray: tray.trayId, value, row: doseFactor.level(tray) ?? "", column: batchFactor.level(tray) ?? "" }];
    }),
    threshold,
  );
}

/** Why each doubtful tray is: what its flags say, and what lies far from the rest. */
function whyDoubtful({ trays, issues }: Trial, odd: Doubts["odd"], flagged: ReadonlySet<Tray>): Doubts["doubtful"] {
  const far = new Map<string, string[]>();
  for (const { response, outliers } of odd) {
    for (const { tray } of outliers) far.set(tray, [...(far.get(tray) ?? []), response.label]);
  }
  const severe = new Map<string, Set<string>>();
  for (const { tray, severity, reason } of issues) {
    if (tray === undefined || (severity !== "warning" && severity !== "error")) continue;
    severe.set(tray, (severe.get(tray) ?? new Set()).add(reason));
  }
  return trays
    .filter((tray) => flagged.has(tray) || far.has(tray.trayId))
    .map((tray) => ({
      tray,
      why: [
        ...(tray.flags.length === 0 ? [] : (severe.get(tray.trayId) ?? new Set(tray.flags))),
        ...(far.get(tray.trayId) ?? []).map((label) => `${label} far from trays of the same dose and cook`),
      ].join("; "),
    }));
}

/** What one answer would settle for most trays: a doubt of the whole sheet that leaves cells unread. */
function askedOfMost({ trays, issues }: Trial): Doubts["wide"] {
  const wide = sheetWideFlags(trays);
  const open = issues.find(({ rule, severity, result }) => wide.has(rule) && severity === "warning" && result === "");
  return open === undefined
    ? undefined
    : { trays: trays.filter(({ flags }) => flags.includes(open.rule)).length, reason: open.reason };
}

/** Which trays of a book are in doubt, why, and what the main figures are without them. */
export function doubtsOf(trial: Trial): Doubts {
  const { trays, settings } = trial;
  const weight = yieldWeightOf(trays);
  const odd = [...(weight === undefined ? [] : [yieldPerGoodTray(weight)]), colonisationDays]
    .map((response) => ({ response, outliers: oddValues(trays, response, settings.outlierZ) }))
    .filter(({ outliers }) => outliers.length > 0);
  const flagged = doubtfulTrays(trays);
  const isFlagged = new Set(flagged);
  const doubtful = whyDoubtful(trial, odd, isFlagged);
  const all = bookFacts(trial, weight);
  const factsOf = (some: ReadonlyArray<Tray>): BookFact[] =>
    some.length === trays.length ? all : bookFacts({ ...trial, trays: some }, weight);
  const movedBy = (facts: BookFact[]) =>
    all.filter((fact) => {
      const other = facts.find(({ label }) => label === fact.label);
      return other === undefined || factChanged(fact, other);
    });
  const far = new Set(doubtful.flatMap(({ tray }) => (isFlagged.has(tray) ? [] : [tray])));
  const unflagged = unflaggedTrays(trays, trial.memo);
  const ofUnflagged = factsOf(unflagged);
  const without = far.size === 0 ? ofUnflagged : factsOf(unflagged.filter((tray) => !far.has(tray)));
  return {
    ...{ flagged, wide: askedOfMost(trial), odd, doubtful, all, without },
    moved: movedBy(without),
    movedByFlagged: movedBy(ofUnflagged),
    farOnly: far.size,
  };
}
