import type { Analysis } from "../src/analysis.ts";
import { doesDoseChangeDaysToColonise } from "./does-dose-change-days-to-colonise.ts";
import { doesDoseChangeYield } from "./does-dose-change-yield.ts";
import { whatDoesAGoodGramCost } from "./what-does-a-good-gram-cost.ts";
import { whichDoseEarnsMost } from "./which-dose-earns-most.ts";

/** Every question the report asks, in the order it tells them. */
export const analyses: ReadonlyArray<Analysis> = [
  whichDoseEarnsMost,
  doesDoseChangeYield,
  doesDoseChangeDaysToColonise,
  whatDoesAGoodGramCost,
];
