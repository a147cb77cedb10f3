import type { AnswerFront, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { type YieldWeight, yieldWeightOf } from "../../src/records/yield-weight.ts";
import { yieldPerGoodTray } from "../comparison/tray-response.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";
import { groupName, meansInRow, withMeans } from "./verdict-words.ts";

/** The mean weight of a good tray, all together, where any has one. */
export function yieldSoFar(trial: Trial): { grams: number; count: number; weight: YieldWeight } | undefined {
  const weight = yieldWeightOf(trial);
  if (weight === undefined) return undefined;
  const { of } = yieldPerGoodTray(weight);
  const weighed = trial.trays.filter((tray) => of(tray) !== undefined);
  const count = startedCount(weighed);
  return { grams: weighed.reduce((sum, tray) => sum + of(tray)! * tray.traysInPool, 0) / count, count, weight };
}

/** levels whose means stand in one line */
const mostNamed = 3;

/** What the front shows of yields that cannot be compared: what trays gave is known all the same. */
export function frontSoFar(trial: Trial, of: TreatmentDecision | undefined): AnswerFront {
  const seen = yieldSoFar(trial);
  if (seen === undefined) return {};
  const figure = { label: `${seen.weight} a good tray, mean`, value: seen.grams, unit: "g", digits: 3 };
  const levels = withMeans(of?.decision.levels ?? []);
  if (of === undefined || levels.length < 2) return { figure, short: ["Nothing can be compared yet."] };
  const { factor } = of.thing;
  const inOrder = levels.toSorted((a, b) => a.mean - b.mean);
  const named = levels.length > mostNamed ? [inOrder[0]!, inOrder.at(-1)!] : levels;
  const last = levels.length > mostNamed ? " to " : " and ";
  return {
    figure,
    short: [...meansInRow(factor, named, "g", last), "; they cannot be compared yet."],
    strip: {
      kind: "groups",
      unit: "g",
      digits: 3,
      groups: levels.map(({ level, mean }) => ({ ...groupName(factor, level), value: mean })),
    },
  };
}
