import type { CertaintyCap, DoseCertainty } from "./dose-tray.ts";

/** A mean with limits that hold 95 of 100 draws; what was seen may have no limits. */
export interface Band {
  mean: number;
  low: number;
  high: number;
}

/** What the trays of one dose show by themselves: the column "seen". */
export interface SeenDose {
  dose: number;
  /** the doses as recorded, where several near ones count as one */
  asTried: number[];
  /** started, lost and weighed trays, those of pools counted singly; cooks that had this dose */
  trays: number;
  lost: number;
  weighed: number;
  cooks: number;
  /** mean grams of weighed good trays; absent where none is; limits absent where a single cook or tray gives none */
  grams?: SeenMean;
  /** mean money of a started tray; absent where none is lost or weighed */
  left?: SeenMean;
}

/** A mean with its 95 % t limits over cooks (over records where there is one cook). */
export interface SeenMean {
  mean: number;
  low?: number;
  high?: number;
}

/** What is expected at one dose of the grid: the column "expected". */
export interface ExpectedDose {
  dose: number;
  tested: boolean;
  /** one step outside the doses tried */
  beyond: boolean;
  /** product grams of a good tray */
  grams: Band;
  /** share of started trays lost, 0 to 1 */
  loss: Band;
  /** mean days of a started tray; absent without dates */
  days?: number;
  /** money of a started tray (grams where there are no prices) */
  left: Band;
  /** chance that it leaves less than the dose to use, and how much less on average */
  chanceBelowUse: number;
  givesUp: number;
}

/** An end of the range beside which more could be earned. */
export interface DoseEdge {
  side: "lowest" | "highest";
  dose: number;
  /** whether the dose to use is this end */
  isUse: boolean;
  /** absent where there is no dose to try on that side */
  next?: DoseStep;
}

/** A dose not tried yet, against the dose to use. */
export interface DoseStep {
  dose: number;
  /** outside the doses tried: rough */
  beyond: boolean;
  /** chance that it leaves more, what it leaves more on average (below 0: less), and what knowing would be worth a tray */
  chanceBetter: number;
  difference: number;
  value: number;
}

/** The best tested dose by another yardstick, against the dose to use. */
export interface BestPer {
  per: "shelf day" | "hour of work";
  dose: number;
  /** by this yardstick: of `dose`, and how much more than the dose to use leaves */
  left: Band;
  more: number;
  chanceBetter: number;
  /** another dose than `use`, at 95 chances in 100 or more */
  different: boolean;
}

export type DoseWarning =
  /** yield goes up, down and up again: look for a mix-up */
  | "up-down-up"
  /** every dose but the one to use is ruled out */
  | "one-dose-left"
  /** no tray was lost: losses are taken as 0 */
  | "none-lost"
  /** no good tray has its days: shelf days cost nothing here */
  | "no-days"
  /** a gram brings nothing after its own costs */
  | "grams-bring-nothing";

/** What later questions ask of the same draws. */
export interface DoseEvidence {
  /** places of the tested doses among `expected`; first and last place of the range tried */
  tested: number[];
  first: number;
  last: number;
  /** covariance of money left: one row per place in the range, one column per tested dose */
  covariance: number[][];
  /** means over the draws kept */
  trayVariance: number;
  cellRatio: number;
  perGram: number;
  seed: number;
}

/** Which dose to use and how sure that is. */
export interface DoseDecision {
  kind: "decision";
  /** whether money is in it; else `left` is grams of a started tray */
  priced: boolean;
  doses: number[];
  seen: SeenDose[];
  /** rising; the curve with its band */
  expected: ExpectedDose[];
  use: {
    dose: number;
    tested: boolean;
    left: Band;
    /** expected income of a started tray there, and what of it counts as no difference */
    income: number;
    noDifference: number;
    /** where it was not tried: the best dose that was, and how much more is expected than there */
    over?: { dose: number; difference: number };
  };
  /** given up against the best dose of the range: on average, and 1 time in 20 more than `high` */
  risk: { mean: number; high: number };
  /** every dose that may still be best lies from `low` to `high`; `coverage` is how often that holds the best, by simulation */
  notRuledOut: { low: number; high: number; coverage: number; ruledOut: number[] };
  /** doses round `use` that do as well, 9 chances in 10; absent where only `use` does, or grams bring nothing */
  asGood?: { low: number; high: number };
  /** every dose of the range does as well: nothing is best, and nothing is lost by that */
  hardlyMatters: boolean;
  edges: DoseEdge[];
  /** untried doses either side of `use`, the one most worth knowing per side */
  nextSteps: DoseStep[];
  /** what lowered the fit's own certainty, and what is left of it */
  caps: CertaintyCap[];
  certainty: DoseCertainty;
  /** the dose to use leaves 0 or less on average */
  nonePays: boolean;
  /** two or three doses: the widest stretch inside which a dose could have been tried and was not */
  gap?: { low: number; high: number };
  per: BestPer[];
  warnings: DoseWarning[];
  leftOut: { withoutCook: number };
  settings: { step: number; tolerance: number; seed: number; draws: number };
  /** share of draws with one top only */
  oneTop: number;
  evidence: DoseEvidence;
}

/** Why there is no decision; what was seen is there all the same. */
export interface NoDoseDecision {
  kind: "cannot-tell";
  reason: "no-trays" | "one-dose" | "too-few-weighed" | "weights-do-not-vary";
  seen: SeenDose[];
  /** weighed records, and how many it takes */
  weighed: number;
  needed: number;
  leftOut: { withoutCook: number };
}
