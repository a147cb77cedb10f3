import type { Sentence } from "../../src/analysis.ts";

/** One arm's trays summed up, as observed. */
export interface ArmSummary {
  arm: string;
  /** the arm as a number, for amounts */
  dose: number | undefined;
  n: number;
  mean: number;
  /** divisor n - 1 */
  standardDeviation: number;
  /** the mean a balanced trial would have shown, with its own interval */
  adjustedMean: number;
  low: number;
  high: number;
}

/** Two arms compared: the second less the first. */
export interface PairDifference {
  first: string;
  second: string;
  difference: number;
  /** simultaneous over all pairs */
  low: number;
  high: number;
  /** allowing for all pairs */
  p: number;
}

/** All arms of a treatment compared on one response. */
export interface ArmComparison {
  arms: ArmSummary[];
  pairs: PairDifference[];
  overall: { f: number; numeratorDf: number; denominatorDf: number; p: number };
  /** which main method was used */
  model: "mixed model" | "unequal variances" | "one variance";
  /** standard deviation between trays of one arm and group */
  residualSd: number;
  /** standard deviation between groups and their number, outer first; empty where groups play no part */
  groupings: { name: string; sd: number; groups: number }[];
  /** standard deviation of what a group does to one arm alone; absent where the layout cannot show it */
  armInGroupSd?: number;
  observations: number;
  method: Sentence[];
  caveats: Sentence[];
}
