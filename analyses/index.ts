import type { Analysis } from "../src/analysis.ts";
import { whatDoesAGoodGramCost } from "./costs/what-does-a-good-gram-cost.ts";
import { whichCostMattersMost } from "./costs/which-cost-matters-most.ts";
import { isTheCultureDrifting } from "./culture/is-the-culture-drifting.ts";
import { doTrialsAgree } from "./dose/do-trials-agree.ts";
import { perTrayShelfDayOrHour } from "./dose/per-tray-shelf-day-or-hour.ts";
import { whichDoseEarnsMost } from "./dose/which-dose-earns-most.ts";
import { whatIsDue } from "./due/what-is-due.ts";
import { isContaminationASignal } from "./losses/is-contamination-a-signal.ts";
import { howManyMoreTrays } from "./planning/how-many-more-trays.ts";
import { isTheNextStepWorthTrying } from "./planning/is-the-next-step-worth-trying.ts";
import { freshOrDriedAnalysis } from "./prices/fresh-or-dried.ts";
import { whatPriceToAsk } from "./prices/what-price-to-ask.ts";
import { whatToMakeAnalysis } from "./prices/what-to-make.ts";
import { areLaterFlushesWorthIt } from "./process/are-later-flushes-worth-it.ts";
import { howMuchDidTheSubstrateGive } from "./process/how-much-did-the-substrate-give.ts";
import { isTheProcessSteady } from "./process/is-the-process-steady.ts";
import { whichRowsCannotBeTrusted } from "./rows/which-rows-cannot-be-trusted.ts";
import { doDoseAndSupplementInteract } from "./supplement/do-dose-and-supplement-interact.ts";
import { doesTheDearerSupplementPay } from "./supplement/does-the-dearer-supplement-pay.ts";
import { doesTemperaturePay } from "./temperature/does-temperature-pay.ts";

import { whatChangedTheDays } from "./treatment/what-changed-the-days.ts";
import { whatChangedTheYield } from "./treatment/what-changed-the-yield.ts";

import { whatElseWasVaried } from "./treatment/what-else-was-varied.ts";

/** Every question the report asks, in the order it tells them: what is due this week, then the most valuable to a grower first. */
export const analyses: ReadonlyArray<Analysis> = [
  whatIsDue,
  whichDoseEarnsMost,
  whatChangedTheYield,
  whatChangedTheDays,
  whatDoesAGoodGramCost,
  howManyMoreTrays,
  doesTheDearerSupplementPay,
  isContaminationASignal,
  freshOrDriedAnalysis,
  whatPriceToAsk,
  whatToMakeAnalysis,
  doesTemperaturePay,
  whatElseWasVaried,
  isTheCultureDrifting,
  perTrayShelfDayOrHour,
  isTheNextStepWorthTrying,
  doDoseAndSupplementInteract,
  areLaterFlushesWorthIt,
  whichCostMattersMost,
  doTrialsAgree,
  howMuchDidTheSubstrateGive,
  isTheProcessSteady,
  whichRowsCannotBeTrusted,
];
