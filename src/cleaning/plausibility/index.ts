import { colonisedUnusual } from "./colonised-unusual.ts";
import { dateFarOff } from "./date-far-off.ts";
import { doseSlip } from "./dose-slip.ts";
import { doubtInNote } from "./doubt-in-note.ts";
import { dryingRatioRange } from "./drying-ratio-range.ts";
import { dryingRatioUnusual } from "./drying-ratio-unusual.ts";
import { durationDisagrees } from "./duration-disagrees.ts";
import { durationRange } from "./duration-range.ts";
import { freshAboveSubstrate } from "./fresh-above-substrate.ts";
import { fruitingTemperatureRange } from "./fruiting-temperature-range.ts";
import type { PlausibilityRule } from "./plausibility-rule.ts";
import { stagesBackwards } from "./stages-backwards.ts";
import { weightInNote } from "./weight-in-note.ts";
import { weightUnusual } from "./weight-unusual.ts";

/** Every check of a whole tray, what cannot be before what is only unusual. */
export const plausibilityRules: ReadonlyArray<PlausibilityRule> = [
  stagesBackwards,
  dateFarOff,
  doseSlip,
  durationDisagrees,
  dryingRatioRange,
  dryingRatioUnusual,
  weightUnusual,
  freshAboveSubstrate,
  weightInNote,
  doubtInNote,
  durationRange,
  colonisedUnusual,
  fruitingTemperatureRange,
];
