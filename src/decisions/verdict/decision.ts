/** What a comparison may say. */
export type Verdict = "settled" | "leaning" | "open" | "cannot-tell";

/** What was varied, as written: a number or a name. */
export type Level = number | string;

/** What stands for the cook of a tray. */
export type GroupedBy =
  /** the cook that is written down */
  | "cook"
  /** the inoculation day */
  | "day"
  /** nothing: at most twelve trays, taken as one cook */
  | "assumed-one-cook"
  /** nothing: runs of rows in the order of the sheet */
  | "row-blocks";

export interface Grouping {
  by: GroupedBy;
  /** names of the groups in row order; merged groups are joined by "+" */
  groups: string[];
  /** rows whose blank cook was filled with the only cook of their day */
  filled: { row: number; cook: string }[];
  /** groups taken as one because a unit (a shelf) with one level stood in each */
  merged: string[][];
}

/** How the levels were compared. */
export type Method =
  /** levels side by side in the same cooks */
  | "inside-cooks"
  /** each cook has one level: one value a cook */
  | "whole-cooks"
  /** trays of one cook */
  | "one-cook"
  /** means alone, nothing is tested */
  | "means-only";

/** Why a tray does not count in the comparison. */
export type LeftOutReason =
  | "no-cook"
  | "no-day"
  /** its cook has one level only, while others have several */
  | "cook-with-one-level"
  /** not the commonest level of its cook, where whole cooks are compared */
  | "stray-in-its-cook"
  /** its levels never stand in a cook beside the others */
  | "not-joined-to-the-others"
  /** its cook holds the levels of one thing only together with those of another that was varied */
  | "tied-to-the-other-factor";

/** Why the verdict can go no further than `at`. */
export interface Cap {
  at: Verdict;
  reason:
    | "one-level"
    | "no-good-trays"
    | "one-unit-per-level"
    | "one-cook-per-level"
    | "calendar"
    | "calendar-by-cook-number"
    | "calendar-by-row-order"
    | "one-cook"
    | "cook-assumed"
    | "cooks-not-recorded"
    | "levels-between-row-blocks"
    | "levels-follow-rows"
    | "levels-follow-rows-of-one-day"
    | "cooks-undated"
    | "losses-follow-level"
    /** trays that are not there yet could turn a comparison of days; set by whoever knows of them */
    | "unfinished-trays"
    /** some levels were picked more often than others, and what they gave more may be that; set by whoever knows of it */
    | "flushes-follow-level"
    /** some levels held more substrate than others; set by whoever knows of it */
    | "substrate-follows-level"
    | "tied-to-the-other-factor";
}

/** One level's trays. Values are of good trays, in row order; a pool stands once with its size. */
export interface LevelFacts {
  level: Level;
  /** trays that count, lost ones included */
  started: number;
  lost: number;
  values: { row: number; value: number; pooled: number }[];
  /** absent when no good tray counts */
  mean?: number;
  /** mean as if every level had stood in every cook; absent where nothing is compared */
  adjusted?: number;
}

export interface Interval {
  lower: number;
  upper: number;
}

/** What an interval is made of. */
export interface StandardError {
  standardError: number;
  degreesOfFreedom: number;
}

/** A difference with what it is worth. Intervals are 95 %. */
export interface Difference {
  /** less `from` */
  to: Level;
  /** absent: the mean of all other levels */
  from?: Level;
  estimate: number;
  standardError: number;
  degreesOfFreedom: number;
  /** absent where no interval holds */
  interval?: Interval;
  /** chance that the true difference is above 0 */
  chance: number;
  /** share of the estimate that lasts on average */
  shrinkage: number;
  shrunken: number;
  /** the difference this trial would have shown four times in five */
  couldHaveShown: number;
}

/** A pair of levels, given once levels are settled to differ. */
export interface Pair {
  from: Level;
  to: Level;
  estimate: number;
  standardError: number;
  degreesOfFreedom: number;
  interval: Interval;
  /** adjusted for the pairs given together where the rule adjusts */
  p: number;
  settled: boolean;
}

/** Whether losses go with the level, compared inside cooks. */
export interface LossTrend {
  lost: number;
  /** above 0 when more are lost at higher levels; absent for unordered levels */
  z?: number;
  /** less sure where cooks disagree by more than chance */
  p: number;
  /** with trays taken one by one: enough to doubt that good trays tell all, not enough to lay losses to the level */
  pOneByOne: number;
}

/** The decision of one comparison: facts only. */
export interface Decision {
  verdict: Verdict;
  caps: Cap[];
  method: Method;
  grouping: Grouping;
  /** cooks (or what stands for them) that the comparison used */
  cooks: number;
  /** share of the levels' variation that lies inside cooks */
  insideShare: number;
  /** in order: numbers upwards, names by code point */
  levels: LevelFacts[];
  leftOut: { row: number; reason: LeftOutReason }[];
  /** the deciding p; absent where no test decides */
  p?: number;
  /** of a steady change with the level */
  pTrend?: number;
  /** of any difference between levels */
  pAny?: number;
  /** significance level used */
  significance: number;
  /** nothing records earlier readings: the level holds for one reading only */
  holdsForOneReading: boolean;
  /** highest less lowest level; of unordered levels, best less usual or best less the mean of the others */
  difference?: Difference;
  /** chance behind leaning: of the likelier side, or of the likeliest best level */
  chance?: number;
  /** every pair the rule allows to tell, in the order in which they are tested; of names none where p is .1 or more */
  pairs: Pair[];
  /** whether testing stops at the first pair that fails */
  pairsInOrder: boolean;
  /** in one cook, the kind of unit (a load) that levels went with in part and are compared within */
  withinUnits?: string;
  losses?: LossTrend;
  /** of unordered levels: chance that each is the best, most likely first */
  best?: { level: Level; chance: number }[];
  /** of unordered levels: the fewest whose chances add up to 0.85 */
  running?: Level[];
  /** errors of `difference`: as settled, and with what few cooks hide allowed for; absent where no interval holds */
  errors?: {
    settled: StandardError;
    supposed: StandardError;
    /** how often the interval may miss: 0.05, or less where the best of many names was chosen */
    miss: number;
  };
  /** variance between good trays of one level and one cook, with its degrees of freedom; absent where no two share both */
  traySpread?: { variance: number; degreesOfFreedom: number };
  /** whether the deciding p alone now decides between settled and not */
  settleable: boolean;
}
