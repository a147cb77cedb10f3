import type { Analysis, AnswerFront, Estimate, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import {
  doseFactor,
  type Factor,
  gradeFactor,
  supplementAmountFactor,
  supplementFactor,
} from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import { groupingsOf } from "../comparison/compare-treatment.ts";
import { confounding, layoutSentence } from "../comparison/confounding.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type Observation, observe, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { type CrossedGrid, crossedGrid, type Interaction, interactionOf } from "./interaction.ts";
import { cellChart, cellTable, contrastTable, surfaceChart, surfaceTable } from "./interaction-tables.ts";
import { type Judged, judge } from "./judge-interplay.ts";
import { interplayFront, interplayMissing } from "./supplement-fronts.ts";
import { type TwoAmounts, twoAmounts } from "./two-amounts.ts";

const leastPerCell = 2;

/** What a second factor can stand beside the dose. */
const seconds = [gradeFactor, supplementAmountFactor, supplementFactor] as const;

const shapeWords = (surface: TwoAmounts, second: Factor, unit: string): Sentence => {
  const { canonical } = surface.surface;
  const { stationary, best } = surface;
  return [
    `Over dose and ${inSentence(second.label)} together: ${canonical.says}`,
    ...(stationary?.inside === true && canonical.shape === "maximum"
      ? [
          ", at ",
          { value: stationary.dose, unit: doseFactor.unit },
          " and ",
          { value: stationary.amount, unit: second.unit },
          " (",
          { value: stationary.value, unit },
          ")",
        ]
      : [
          "; the best of what was tried is ",
          { value: best.dose, unit: doseFactor.unit },
          " with ",
          { value: best.amount, unit: second.unit },
          best.atEdge ? ", at the edge of what was tried" : "",
        ]),
    ".",
  ];
};

interface Setting {
  trial: Trial;
  observations: Observation[];
  second: Factor;
  groupNames: string[];
  response: { label: string; unit: string };
}

/** The answer from a surface alone, when cells of single levels are too thin for a table of cells. */
function surfaceJudgement({ trial, second, response }: Setting, fitted: TwoAmounts): Judged {
  const { p, low, high, estimate } = fitted.product;
  const unit = `${response.unit}/${doseFactor.unit}`;
  const apart = p >= trial.settings.significanceLevel;
  return {
    sentence: [
      apart
        ? `No interplay of dose and ${inSentence(second.label)} is shown: a further `
        : `Dose and ${inSentence(second.label)} have to be judged together: a further `,
      { value: 1, unit: second.unit },
      " changes what a mL does by ",
      { value: estimate, unit, signed: true },
      " (",
      { from: low, to: high, unit, signed: true },
      "). ",
      ...shapeWords(fitted, second, response.unit),
    ],
    certainty: apart ? "open" : "settled",
    together: !apart,
  };
}

function answer(
  setting: Setting,
  grid: CrossedGrid | undefined,
  extra: { excluded: Outcome["excluded"]; method: Sentence[]; caveats: Sentence[] },
): Outcome {
  const { trial, observations, second, groupNames, response } = setting;
  const { intervalLevel: level } = trial.settings;
  const surface =
    second.value === undefined ? { reason: "the second is not an amount" } : twoAmounts(observations, second, level);
  const fitted = "surface" in surface ? surface : undefined;
  const interaction = grid === undefined ? undefined : interactionOf(grid, groupNames, level);
  const mean = observations.reduce((sum, { value }) => sum + value / observations.length, 0);
  const judged =
    interaction === undefined
      ? surfaceJudgement(setting, fitted!)
      : judge(trial, interaction, second, mean, response.unit);
  const shape =
    fitted === undefined || interaction === undefined ? [] : [[" ", ...shapeWords(fitted, second, response.unit)]];
  const slopeUnit = `${response.unit}/${doseFactor.unit}`;
  const slopes: Estimate[] = (interaction?.slopes ?? []).map(({ other, estimate, low, high, p }) => ({
    label: `change of what a further mL does, ${levelLabel(second, other)} against ${levelLabel(second, interaction!.grid.others[0]!)}`,
    value: estimate,
    low,
    high,
    level,
    unit: slopeUnit,
    n: interaction!.grid.observations.length,
    nUnit: "trays",
    p,
    method: interaction!.fit.model,
  }));
  const product: Estimate[] =
    fitted === undefined
      ? []
      : [
          {
            label: `change of what a mL does for each further ${second.unit} of ${inSentence(second.label)}`,
            value: fitted.product.estimate,
            low: fitted.product.low,
            high: fitted.product.high,
            level,
            unit: slopeUnit,
            n: fitted.trays,
            nUnit: "trays",
            p: fitted.product.p,
            method: "second-order response surface",
          },
        ];
  return {
    kind: "answer",
    sentence: [...judged.sentence, ...shape.flat()],
    certainty: judged.certainty,
    ...frontOf(interaction, fitted, second, response.unit, judged),
    estimates: [...slopes, ...product],
    tables: [
      ...(interaction === undefined
        ? []
        : [cellTable(interaction, second, response.unit), contrastTable(interaction, second, response.unit)]),
      ...(fitted === undefined ? [] : [surfaceTable(fitted, second, response.unit)]),
    ],
    charts: [
      ...(interaction === undefined ? [] : [cellChart(interaction, second, response.label, response.unit)]),
      ...(fitted === undefined ? [] : [surfaceChart(fitted, second, response.label, response.unit)]),
    ],
    excluded: extra.excluded,
    method: [
      ...extra.method,
      ...(interaction === undefined
        ? []
        : [
            [
              `Interaction of dose and ${inSentence(second.label)}: F = ${interaction.test.f.toPrecision(3)} with ${interaction.test.numeratorDf} and ${interaction.test.denominatorDf.toPrecision(3)} degrees of freedom, p = ${interaction.test.p.toPrecision(2)}.`,
            ] satisfies Sentence,
            interaction.fit.method,
          ]),
      ...(fitted === undefined
        ? []
        : [
            [
              "Second-order response surface by least squares with cooks as blocks, and its canonical analysis.",
            ] satisfies Sentence,
          ]),
    ],
    caveats: [
      ...extra.caveats,
      ...(interaction?.fit.notes ?? []),
      ["An interplay takes about four times as many trays to see as an effect of the same size."],
    ],
  };
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell whether dose and supplement interact: no good tray has a weight."],
      ["Weigh each tray at harvest, fresh and dry, and type the weights in."],
    );
  }
  const doseLayout = readLayout(trial.trays, doseFactor, trial.memo);
  const settle: Sentence = [
    "Put every dose with every grade (or amount) of the supplement into each of at least three cooks, two trays or more of each pair, drawn at random.",
  ];
  const dose = confounding(doseLayout);
  if (dose.kind === "not-separable") return noAnswer(dose.reason, settle, { method: [layoutSentence(doseLayout)] });
  const response = yieldPerGoodTray(weight);
  const groupings = groupingsOf(doseLayout, trial.trays);
  const { observations, excluded } = observe(trial.trays, doseFactor, response, groupings);
  const doses = doseLayout.arms.map(({ level }) => level);
  const groupNames = groupings.map(({ label }) => inSentence(label));
  const reasons: Sentence[] = [];
  for (const second of seconds) {
    const layout = readLayout(trial.trays, second, trial.memo);
    if (layout.arms.length < 2) continue;
    const apart = confounding(layout);
    if (apart.kind === "not-separable") {
      reasons.push(apart.reason);
      continue;
    }
    const grid = crossedGrid(observations, second, doses, leastPerCell);
    const surface =
      grid === undefined && second.value !== undefined ? twoAmounts(observations, second, 0.95) : undefined;
    if (grid === undefined && (surface === undefined || "reason" in surface)) {
      reasons.push([
        `Too few doses were tried with two levels of ${inSentence(second.label)}, ${leastPerCell} trays each, to see whether they interact.`,
      ]);
      continue;
    }
    try {
      return answer({ trial, observations, second, groupNames, response }, grid, {
        excluded,
        method: [layoutSentence(doseLayout), layoutSentence(layout)],
        caveats: [...dose.caveats, ...apart.caveats],
      });
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      reasons.push([`The model could not be fitted: ${error.message}.`]);
    }
  }
  const [first] = reasons;
  return noAnswer(
    [
      "Cannot tell whether dose and supplement interact: ",
      ...(first ?? ["every tray had the same supplement, or none is recorded."]),
    ],
    settle,
    { excluded, method: [layoutSentence(doseLayout)], missing: interplayMissing(reasons.length > 0) },
  );
}

/** What the front shows: the largest change of one dose's gain, or of what a mL does where only amounts were tried. */
function frontOf(
  interaction: Interaction | undefined,
  fitted: TwoAmounts | undefined,
  second: Factor,
  unit: string,
  { certainty, together }: Judged,
): AnswerFront {
  const largest = interaction?.contrasts.reduce((a, b) => (Math.abs(b.estimate) > Math.abs(a.estimate) ? b : a));
  const change = largest ?? fitted!.product;
  return interplayFront(
    { value: change.estimate, low: change.low, high: change.high },
    largest === undefined ? `${unit}/${doseFactor.unit}` : unit,
    inSentence(second.label).replace("supplement grade", "grade"),
    certainty,
    !together,
  );
}

/** Whether dose and supplement can be judged apart. */
export const doDoseAndSupplementInteract: Analysis = {
  id: "do-dose-and-supplement-interact",
  name: "Dose and supplement",
  question: "Do dose and supplement interact, or can they be judged apart?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: ["doses and supplements were given to trays at random within each cook", "one record per tray"],
  topic: "growing",
  headline: false,
  run,
};
