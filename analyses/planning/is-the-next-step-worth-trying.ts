import type { Analysis, Certainty, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { compareTreatment, groupingsOf, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { observe, yieldPerGoodTray, yieldPerStartedTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { type DoseMoney, doseMoney } from "../dose/dose-money.ts";
import { type DoseStep, doseStep, stepCurve } from "../dose/dose-steps.ts";
import { bookSpread } from "./book-spread.ts";
import { type MoreTraysInput, wantedChance } from "./more-trays.ts";
import { type Steps, stepTable } from "./step-table.ts";
import { smallestShown } from "./trial-power.ts";

/** A trial of the size a few shelves bear, against which a step is called small or wide. */
const usualCooks = 3;

const millilitres = (value: number): Sentence => [{ value, unit: doseFactor.unit }];
const rounded = (value: number): number => Number(value.toPrecision(10));

function stepsOf(trial: Trial, compared: TreatmentComparison, money: DoseMoney | undefined): Steps {
  const doses = compared.comparison.arms.map(({ dose }) => dose!);
  const gramsPerMillilitre = money === undefined ? 0 : money.perMillilitre / money.perGram;
  const worth = ({ adjustedMean, dose }: { adjustedMean: number; dose: number | undefined }) =>
    adjustedMean - dose! * gramsPerMillilitre;
  const base = compared.comparison.arms.reduce((a, b) => (worth(b) > worth(a) ? b : a)).dose!;
  const groupNames = groupingsOf(compared.layout, trial.trays).map(({ label }) => inSentence(label));
  const curve = stepCurve(compared.observations, groupNames, trial.settings.intervalLevel);
  const size = Math.min(...doses.slice(1).map((dose, k) => dose - doses[k]!));
  const stepTo = (to: number) => doseStep(curve, doses, base, rounded(to), gramsPerMillilitre);
  // no tray goes without any culture
  const next = [base + size, base - size].filter((to) => rounded(to) > 0).map(stepTo);
  const gain = (step: DoseStep) => step.change.estimate - step.gramsToPay;
  const chosen = next.reduce((a, b) => (gain(b) > gain(a) ? b : a));
  const direction = chosen.to > base ? 1 : -1;
  return {
    doses,
    base,
    edge: base === doses.at(-1) ? "highest" : base === doses[0] ? "lowest" : "none",
    curve,
    next,
    chosen,
    wider: [1, 2, 3]
      .map((times) => base + direction * times * size)
      .filter((to) => rounded(to) > 0)
      .map(stepTo),
    money,
  };
}

/** "+1.2 g (−0.3 to +2.7 g) a started tray", with the money it is worth. */
function promise({ chosen, money }: Steps): Sentence {
  const { estimate, low, high } = chosen.change;
  return [
    { value: estimate, unit: "g", signed: true },
    " (",
    { from: low, to: high, unit: "g", signed: true },
    ") a started tray",
    ...(money === undefined
      ? []
      : [
          ", ",
          { value: (estimate - chosen.gramsToPay) * money.perGram, unit: "money", signed: true } as const,
          " with the liquid counted",
        ]),
  ];
}

function verdict(steps: Steps, smallestSeen: number | undefined): { sentence: Sentence; certainty: Certainty } {
  const { chosen, base, edge, next } = steps;
  const best = Math.max(...next.map(({ chanceItPays }) => chanceItPays));
  const chance = chosen.chanceItPays;
  const way = chosen.to > base ? "up" : "down";
  const where: Sentence = [...millilitres(base), ", the best of the doses tried, to ", ...millilitres(chosen.to)];
  const noise: Sentence =
    smallestSeen === undefined || Math.abs(chosen.change.estimate) >= smallestSeen
      ? []
      : [
          " The step is smaller than the noise: a trial of three cooks shows ",
          { value: smallestSeen, unit: "g" },
          " a good tray and no less, so space the doses wider and read in between.",
        ];
  const edgeNote: Sentence =
    edge === "none"
      ? []
      : [
          ` ${edge === "highest" ? "The highest" : "The lowest"} dose tried is the best so far, so the best dose is not known: it may lie beyond.`,
        ];
  const tail: Sentence = [": ", ...promise(steps), ".", ...edgeNote, ...noise];
  const percent: Sentence = ["a chance of ", { value: chance, unit: "share", digits: 2 }, " to pay"];
  if (best <= 0.2) {
    return {
      sentence: [
        "Stop here: no step from ",
        ...millilitres(base),
        ", up or down, looks likely to pay. The better one, ",
        way,
        " to ",
        ...millilitres(chosen.to),
        ", has ",
        ...percent,
        ...tail,
      ],
      certainty: best <= 0.025 ? "settled" : "leaning",
    };
  }
  if (chosen.place === "tried" && chance < 0.8) {
    return {
      sentence: [
        "Not as a small step: the next dose ",
        way,
        " from ",
        ...where,
        " was tried, with ",
        ...percent,
        ...tail,
      ],
      certainty: "open",
    };
  }
  if (chance >= 0.8) {
    return {
      sentence: ["Worth trying: the next step ", way, ", from ", ...where, ", has ", ...percent, ...tail],
      certainty: chance >= 0.975 && chosen.place !== "beyond the doses tried" ? "settled" : "leaning",
    };
  }
  return {
    sentence: ["Open: the next step ", way, ", from ", ...where, ", has ", ...percent, ...tail],
    certainty: "open",
  };
}

function answer(trial: Trial, compared: TreatmentComparison, steps: Steps, moneyReason: string | undefined): Outcome {
  const { settings } = trial;
  // lost trays would swamp how much good ones vary, by which a step is seen
  const weight = yieldWeightOf(trial.trays)!;
  const spread = bookSpread(observe(trial.trays, doseFactor, yieldPerGoodTray(weight)).observations);
  const traysPerDose = Math.max(2, Math.floor(settings.traysPerLoad / 2));
  const input: MoreTraysInput | undefined = spread && {
    spread,
    doses: 2,
    significance: settings.significanceLevel,
    existing: [],
    existingTrays: 0,
    traysPerDose,
    mean: spread.mean,
    traysPerDoseSoFar: 0,
    wanted: wantedChance,
  };
  const smallestSeen = input && smallestShown(wantedChance, { ...input, moreCooks: usualCooks });
  const { sentence, certainty } = verdict(steps, smallestSeen);
  const { chosen, curve, money } = steps;
  const rows = [...new Map([...steps.next, ...steps.wider].map((step) => [step.to, step])).values()].sort(
    (a, b) => a.to - b.to,
  );
  return {
    kind: "answer",
    sentence,
    certainty,
    estimates: [
      {
        label: `${chosen.to} ${doseFactor.unit} against ${chosen.from} ${doseFactor.unit}, ${compared.response.label}`,
        value: chosen.change.estimate,
        low: chosen.change.low,
        high: chosen.change.high,
        level: settings.intervalLevel,
        unit: "g",
        n: compared.observations.length,
        nUnit: "trays",
        p: chosen.change.p,
        method: `${curve.form}, ${curve.fit.model}`,
      },
    ],
    tables: [stepTable(steps, input)],
    charts: [
      {
        kind: "intervals",
        title: `What a step from ${steps.base} ${doseFactor.unit} is expected to do`,
        description: rows
          .map(({ to, change }) => `to ${to} ${doseFactor.unit}: ${change.estimate.toPrecision(3)} g`)
          .join("; "),
        unit: "g",
        valueLabel: `change in ${compared.response.label}`,
        rows: rows.map(({ to, change, place }) => ({
          label: `${to} ${doseFactor.unit}${place === "beyond the doses tried" ? " (beyond)" : ""}`,
          value: change.estimate,
          low: change.low,
          high: change.high,
        })),
        reference: 0,
      },
    ],
    excluded: compared.excluded,
    method: [
      ...compared.method.slice(0, 1),
      [
        `A ${curve.form} through the doses, with lost trays counted as nothing; the change is read off as a contrast of its coefficients.`,
      ],
      curve.fit.method,
      [
        money === undefined
          ? "A step pays here when it gives more; its liquid is not counted."
          : "A step pays when what it gives is worth more than its liquid culture.",
      ],
    ],
    caveats: [
      ...(chosen.place === "beyond the doses tried"
        ? [
            [
              "No tray had this dose: the curve is carried on beyond what was tried, which its interval does not pay for.",
            ] satisfies Sentence,
          ]
        : []),
      ...(curve.form === "straight line"
        ? [
            [
              "Two doses show no bend: a straight line promises the same for every further step, which cannot go on.",
            ] satisfies Sentence,
          ]
        : []),
      ...(moneyReason === undefined ? [] : [[`Money is not in it: ${moneyReason}.`] satisfies Sentence]),
      [
        "A larger volume of liquid also spreads a bad jar over more trays; balance the water, so that only the culture differs.",
      ],
      ...compared.caveats,
    ],
  };
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial.trays);
  const settle: Sentence = [
    "Try three doses or more, spaced wide, all of them in each of at least three cooks; gramwright plan lays such a trial out.",
  ];
  if (weight === undefined) {
    return noAnswer(["Cannot tell whether the next step is worth trying: no good tray has a weight."], settle);
  }
  const compared = compareTreatment(trial, doseFactor, yieldPerStartedTray(weight), "higher");
  if (compared.kind === "cannot-tell") return { ...compared, wouldSettle: [...compared.wouldSettle, " ", ...settle] };
  const money = doseMoney(trial, weight);
  try {
    const steps = stepsOf(trial, compared, money.kind === "money" ? money : undefined);
    return answer(trial, compared, steps, money.kind === "money" ? undefined : money.reason);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return noAnswer(
      [
        `Cannot tell whether the next step is worth trying: no curve could be put through the doses (${error.message}).`,
      ],
      settle,
      { excluded: compared.excluded, method: compared.method },
    );
  }
}

/** Whether the next small step in dose is worth trying, or a wider one, or none. */
export const isTheNextStepWorthTrying: Analysis = {
  id: "is-the-next-step-worth-trying",
  name: "A small step",
  question: "Is the next small step in dose worth trying?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: ["doses were given to trays at random within each cook", "between the doses tried the yield bends evenly"],
  topic: "money",
  headline: false,
  run,
};
