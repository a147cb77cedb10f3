import type { Analysis, CannotTell, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { type ComparedTray, decideInteraction } from "../../src/decisions/verdict/index.ts";
import { mostLevels, type VariedThing } from "../../src/design/varied-things.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { levelIn } from "../treatment/compared-trays.ts";
import { type TreatmentDecision, thingsOf } from "../treatment/treatment-decision.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import type { Crossed } from "./crossed.ts";
import { interplayAnswer } from "./interplay-answer.ts";
import { cellChart, cellTable, surfaceChart } from "./interplay-tables.ts";
import { interplayMissing } from "./supplement-fronts.ts";
import { twoAmounts } from "./two-amounts.ts";

/** What a second thing beside the dose can be, in the order in which it is looked at. */
const seconds: ReadonlyArray<string> = ["supplement_grade", "supplement_g", "supplement", "strain", "fruiting_c"];

const settle = (second = "supplement, grade or amount"): Sentence => [
  `Give every dose with every ${second} to a few trays of each of three cooks or more.`,
];

/** Trays of the dose's comparison on which the second thing is written, with its level. */
function crossedTrays({ gathered }: TreatmentDecision, { factor }: VariedThing): ComparedTray[] {
  return gathered.trays.flatMap((one): ComparedTray[] => {
    const other = levelIn(factor, gathered.byRow[one.row]!);
    return other === undefined ? [] : [{ ...one, other }];
  });
}

/** What is known of two things that cannot be judged together yet: every combination's trays. */
function notYet(crossed: Crossed, reason: Sentence, excluded: Outcome["excluded"]): CannotTell {
  const surface = surfaceOf(crossed);
  return noAnswer(reason, settle(inSentence(crossed.second.factor.label)), {
    excluded,
    missing: interplayMissing(inSentence(crossed.second.factor.label)),
    tables: [cellTable(crossed)],
    charts: [cellChart(crossed), ...(surface === undefined ? [] : [surfaceChart(surface, crossed)])],
    asked: asked(crossed.second),
  });
}

const asked = ({ factor }: VariedThing) => ({
  question: `Do dose and ${inSentence(factor.label)} interact, or can they be judged apart?`,
  name: `Dose and ${inSentence(factor.label).split(" ").slice(-2).join(" ")}`,
});

const surfaceOf = ({ trays, second }: Crossed) => (second.kind === "amount" ? twoAmounts(trays) : undefined);

function run(trial: Trial): Outcome {
  const start = "Cannot tell whether dose and supplement interact: ";
  if (yieldWeightOf(trial) === undefined) {
    return noAnswer([`${start}no good tray has a weight.`], ["Weigh each tray at harvest and after drying."]);
  }
  const things = thingsOf(trial);
  const dose = things.find(({ factor, levels }) => factor.key === "inoculum_ml" && levels <= mostLevels);
  const of = dose === undefined ? undefined : yieldDecision(trial, dose);
  const beside = seconds.flatMap((key) =>
    things.filter(({ factor, levels }) => factor.key === key && levels <= mostLevels),
  );
  if (of === undefined || beside.length === 0) {
    const which = of === undefined ? "every tray had the same dose" : "every tray had the same supplement";
    return noAnswer([`${start}${which}, or none is written down.`], settle(), { missing: interplayMissing(undefined) });
  }
  const all = beside.map((second): Crossed => ({ dose: of, second, trays: crossedTrays(of, second) }));
  for (const crossed of all) {
    const interaction = decideInteraction(crossed.trays, of.settings);
    if (interaction === undefined) continue;
    return { ...interplayAnswer(trial, crossed, interaction, surfaceOf(crossed)), asked: asked(crossed.second) };
  }
  const first = all[0]!;
  const what = inSentence(first.second.factor.label);
  return notYet(
    first,
    [
      `Cannot tell whether dose and ${what} interact: fewer than three cooks held the lowest and the highest dose with every ${what}.`,
    ],
    of.gathered.excluded,
  );
}

/** Whether dose and supplement can be judged apart. */
export const doDoseAndSupplementInteract: Analysis = {
  id: "do-dose-and-supplement-interact",
  name: "Dose and supplement",
  question: "Do dose and supplement interact, or can they be judged apart?",
  needs: ["tray_id", "inoculum_ml"],
  assumes: ["doses and supplements were given to trays at random within each cook", "one record per tray"],
  topic: "growing",
  headline: false,
  run,
};
