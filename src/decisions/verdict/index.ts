export { usualTrayCv, usualTrayDf } from "../supposed-spread.ts";
export { couldShowAfter } from "./after-more-cooks.ts";
export { type BesideOther, besideOther } from "./beside-other.ts";
export { gainDiffers } from "./compare-inside-cooks.ts";
export {
  type ComparedTray,
  changedTray,
  type Reading,
  type Suppositions,
  type VerdictSettings,
} from "./compared-tray.ts";
export { decideComparison } from "./decide-comparison.ts";
export { decideInteraction, type Interaction } from "./decide-interaction.ts";
export { decideUnordered } from "./decide-unordered.ts";
export type {
  Cap,
  Decision,
  Difference,
  GroupedBy,
  Grouping,
  Interval,
  LeftOutReason,
  Level,
  LevelFacts,
  LossTrend,
  Method,
  Pair,
  Verdict,
} from "./decision.ts";
export { type GroupedTrays, groupTrays } from "./group-trays.ts";
export { atSignificance, type JudgedGain, judgeGain } from "./judge.ts";
export { againstUsual, type Gain, gainsOver, type MeanRange, rangesOfMeans } from "./ranges-of-means.ts";
export { readingLevel, readingOf } from "./reading-level.ts";
export { decideStartedTrays } from "./started-trays/decide-started-trays.ts";
export { type QuestionLevel, type TestedQuestion, type WholeReport, wholeReport } from "./whole-report.ts";
