import type { Table } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { DoseMoney } from "../dose/dose-money.ts";
import type { DoseStep, StepCurve } from "../dose/dose-steps.ts";
import { type MoreTraysInput, moreNeeded } from "./more-trays.ts";

/** Steps from the best dose tried. */
export interface Steps {
  doses: number[];
  base: number;
  edge: "lowest" | "highest" | "none";
  curve: StepCurve;
  /** one step up and one down, where there is room */
  next: DoseStep[];
  /** the better of the two */
  chosen: DoseStep;
  /** steps of one, two and three times the size in the chosen direction */
  wider: DoseStep[];
  money: DoseMoney | undefined;
}

/** Every step with what it promises and what it would take to show it. */
export function stepTable(steps: Steps, input: MoreTraysInput | undefined): Table {
  const { wider, next, money, chosen } = steps;
  const rows = [...next.filter((step) => step !== chosen), ...wider];
  return {
    caption: `Steps from ${steps.base} ${doseFactor.unit}: small ones against wide ones`,
    columns: [
      { label: "to", unit: doseFactor.unit },
      { label: "where" },
      { label: "change of a started tray", unit: "g" },
      { label: "from", unit: "g" },
      { label: "to at most", unit: "g" },
      ...(money === undefined
        ? []
        : [
            { label: "worth, liquid counted", unit: "money" },
            { label: "at the low end", unit: "money" },
          ]),
      { label: "chance that it pays", unit: "share" },
      { label: "trays per dose to show it", unit: "trays" },
    ],
    rows: rows.map(({ to, place, change, gramsToPay, chanceItPays }) => [
      to,
      place,
      change.estimate,
      change.low,
      change.high,
      ...(money === undefined
        ? []
        : [(change.estimate - gramsToPay) * money.perGram, (change.low - gramsToPay) * money.perGram]),
      chanceItPays,
      input === undefined || change.estimate === 0
        ? null
        : (moreNeeded(change.estimate, input)?.moreTraysPerDose ?? null),
    ]),
    note: "Trays per dose are for a new trial of the two doses alone and a chance of 80%, if the change is as large as expected. Beyond the doses tried the curve is only carried on.",
  };
}
