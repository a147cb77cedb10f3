export { doseDecision } from "./dose-decision.ts";
export type {
  Band,
  BestPer,
  DoseDecision,
  DoseEdge,
  DoseStep,
  DoseWarning,
  ExpectedDose,
  NoDoseDecision,
  SeenDose,
  SeenMean,
} from "./dose-facts.ts";
export type { CertaintyCap, DoseCertainty, DosePrices, DoseQuestion, DoseTray, DoseWork } from "./dose-tray.ts";
export { type DoseYields, doseYields, type NoDoseYields } from "./dose-yields.ts";
export { type MoreTraysWorth, valueOfMoreTrays } from "./more-trays.ts";
export { isWorthTrying } from "./next-steps.ts";
export { usualStep } from "./tested-doses.ts";
