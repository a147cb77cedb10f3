import type { CostLine, Stage } from "../../records/cost-line.ts";

/** The stages of a tray's life in order. */
export const stages: ReadonlyArray<Stage> = ["filling", "inoculation", "incubation", "fruiting", "harvest", "drying"];

const order: Record<Stage, number> = { filling: 0, inoculation: 1, incubation: 2, fruiting: 3, harvest: 4, drying: 5 };

/** Place of a stage in a tray's life, 0 for filling. @example stageOrder("harvest") // 4 */
export const stageOrder = (stage: Stage): number => order[stage];

/**
 * When in a tray's life a line's cost is spent: as the line says, or else by its base. Culture is spent at inoculation,
 * work on good trays and on fresh weight at harvest, energy per kg fresh and anything per kg dried at drying, a day of
 * shelf from inoculation on, everything else at filling.
 * @example lineStage({ per: "jar", kind: "consumable" }) // "inoculation"
 */
export function lineStage({ stage, per, kind }: Pick<CostLine, "stage" | "per" | "kind">): Stage {
  if (stage !== undefined) return stage;
  switch (per) {
    case "jar":
    case "inoculum mL":
    case "shelf day":
      return "inoculation";
    case "good tray":
      return "harvest";
    case "kg fresh":
      return kind === "energy" ? "drying" : "harvest";
    case "kg dried":
      return "drying";
    default:
      return "filling";
  }
}

/**
 * Whether a line's cost grows with what is made. Space, overhead, anything per month, equipment written off by years and
 * the owner's own time are there whether or not one more tray is made; the rest is spent tray by tray.
 */
export const growsWithOutput = (line: CostLine): boolean =>
  !(
    line.kind === "space" ||
    line.kind === "overhead" ||
    line.per === "month" ||
    line.ownerLabour ||
    (line.kind === "reusable" && line.uses === undefined && line.lifeYears !== undefined)
  );
