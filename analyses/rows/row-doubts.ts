import type { Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doubtfulTrays, sheetWideFlags, unflaggedTrays } from "../../src/records/doubtful-trays.ts";
import { grouped } from "../../src/records/grouped.ts";
import type { Issue } from "../../src/records/issue.ts";
import type { Tray } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { type BookFact, bookFacts, factChanged } from "./book-facts.ts";

/** Trays with rows in doubt, and the main figures with and without them. */
export interface Doubts {
  /** what is in doubt of most trays at once, of how many, and whether an answer would settle it */
  wide: { trays: number; reason: string; isOpen: boolean } | undefined;
  /** flagged trays, with what the log says of each */
  doubtful: { tray: Tray; issues: Issue[] }[];
  all: BookFact[];
  without: BookFact[];
  moved: BookFact[];
}

/** The flagged trays, with what the log says is doubtful about each. */
function doubtfulOf({ trays, issues }: Trial): Doubts["doubtful"] {
  const severe = grouped(issues, ({ tray, severity }) =>
    severity === "warning" || severity === "error" ? tray : undefined,
  );
  return doubtfulTrays(trays).map((tray) => ({ tray, issues: severe.get(tray.trayId) ?? [] }));
}

/** What is in doubt of most trays alike; first what leaves their cells unread. */
function doubtOfMost({ trays, issues }: Trial): Doubts["wide"] {
  const wide = sheetWideFlags(trays);
  const ofMost = issues.filter(({ rule, severity }) => wide.has(rule) && severity === "warning");
  const open = ofMost.find(({ result }) => result === "") ?? ofMost[0];
  return open === undefined
    ? undefined
    : {
        trays: startedCount(trays.filter(({ flags }) => flags.includes(open.rule))),
        reason: open.reason,
        isOpen: open.result === "",
      };
}

/** How many trays are in doubt; a pool counts as its trays. */
export const doubtfulCount = ({ doubtful }: Doubts): number => startedCount(doubtful.map(({ tray }) => tray));

/** Which trays of a book are in doubt, why, and what the main figures are without them. */
export function doubtsOf(trial: Trial): Doubts {
  const { trays } = trial;
  const weight = yieldWeightOf(trial);
  const doubtful = doubtfulOf(trial);
  const all = bookFacts(trial, weight);
  const without =
    doubtful.length === 0 ? all : bookFacts({ ...trial, trays: unflaggedTrays(trays, trial.memo) }, weight);
  const moved = all.filter((fact) => {
    const other = without.find(({ label }) => label === fact.label);
    return other === undefined || factChanged(fact, other);
  });
  return { wide: doubtOfMost(trial), doubtful, all, without, moved };
}
