import type { Analysis } from "../src/analysis.ts";
import { doesDoseChangeDaysToColonise } from "./does-dose-change-days-to-colonise.ts";
import { doesDoseChangeYield } from "./does-dose-change-yield.ts";
import { whatDoesAGoodGramCost } from "./what-does-a-good-gram-cost.ts";

/** Every question the report asks, in the order it tells them. */
export const analyses: ReadonlyArray<Analysis> = [
  doesDoseChangeYield,
  doesDoseChangeDaysToColonise,
  whatDoesAGoodGramCost,
];
