import type { Analysis } from "../src/analysis.ts";
import { areLaterFlushesWorthIt } from "./are-later-flushes-worth-it.ts";
import { doDoseAndSupplementInteract } from "./do-dose-and-supplement-interact.ts";
import { doTrialsAgree } from "./do-trials-agree.ts";
import { doesDoseChangeDaysToColonise } from "./does-dose-change-days-to-colonise.ts";
import { doesDoseChangeYield } from "./does-dose-change-yield.ts";
import { doesTemperaturePay } from "./does-temperature-pay.ts";
import { doesTheDearerSupplementPay } from "./does-the-dearer-supplement-pay.ts";
import { freshOrDriedAnalysis } from "./fresh-or-dried.ts";
import { howManyMoreTrays } from "./how-many-more-trays.ts";
import { isContaminationASignal } from "./is-contamination-a-signal.ts";
import { isTheCultureDrifting } from "./is-the-culture-drifting.ts";
import { isTheGainRealYet } from "./is-the-gain-real-yet.ts";
import { isTheNextStepWorthTrying } from "./is-the-next-step-worth-trying.ts";
import { isTheProcessSteady } from "./is-the-process-steady.ts";
import { perTrayShelfDayOrHour } from "./per-tray-shelf-day-or-hour.ts";
import { whatDoesAGoodGramCost } from "./what-does-a-good-gram-cost.ts";
import { whatPriceToAsk } from "./what-price-to-ask.ts";
import { whatToMakeAnalysis } from "./what-to-make.ts";
import { whichCostMattersMost } from "./which-cost-matters-most.ts";
import { whichDoseEarnsMost } from "./which-dose-earns-most.ts";
import { whichRowsCannotBeTrusted } from "./which-rows-cannot-be-trusted.ts";

/** Every question the report asks, in the order it tells them: most valuable to a grower first. */
export const analyses: ReadonlyArray<Analysis> = [
  whichDoseEarnsMost,
  doesDoseChangeYield,
  isTheGainRealYet,
  doesDoseChangeDaysToColonise,
  whatDoesAGoodGramCost,
  howManyMoreTrays,
  doesTheDearerSupplementPay,
  isContaminationASignal,
  freshOrDriedAnalysis,
  whatPriceToAsk,
  whatToMakeAnalysis,
  doesTemperaturePay,
  isTheCultureDrifting,
  perTrayShelfDayOrHour,
  isTheNextStepWorthTrying,
  doDoseAndSupplementInteract,
  areLaterFlushesWorthIt,
  whichCostMattersMost,
  doTrialsAgree,
  isTheProcessSteady,
  whichRowsCannotBeTrusted,
];
