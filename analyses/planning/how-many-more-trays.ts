import type { Analysis, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import { compareTreatment, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { confounding, layoutSentence } from "../comparison/confounding.ts";
import { levelPart } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import {
  type Observation,
  observe,
  type YieldWeight,
  yieldPerGoodTray,
  yieldWeightOf,
} from "../comparison/tray-response.ts";
import { doseMoney } from "../dose/dose-money.ts";
import { gainSequence } from "../dose/gain-sequence.ts";
import { type BookSpread, bookSpread } from "./book-spread.ts";
import { freshTrial, usualSpreads } from "./fresh-trial.ts";
import {
  chanceChart,
  chanceTable,
  differenceTable,
  type MoreTraysInput,
  moreNeeded,
  type Sought,
  wantedChance,
} from "./more-trays.ts";
import { moreTraysFront } from "./more-trays-front.ts";
import { type CookPair, chanceToShow } from "./trial-power.ts";
import { type WorthwhileDifference, worthwhileDifference } from "./worthwhile-difference.ts";

/** Trays of a dose in each further cook: as many as a cook of this book holds, within the places there are. */
function usualTraysPerDose(observations: ReadonlyArray<Observation>, doses: number, trial: Trial): number {
  const cells = new Map<string, number>();
  for (const { arm, source } of observations) {
    const key = `${source.batch ?? ""}\n${arm}`;
    cells.set(key, (cells.get(key) ?? 0) + 1);
  }
  const sizes = [...cells.values()].sort((a, b) => a - b);
  const usual = sizes.length === 0 ? 4 : sizes[Math.floor(sizes.length / 2)]!;
  const places = Math.floor(trial.settings.shelfPlaces / doses);
  return Math.max(1, Math.min(Math.max(2, usual), places, 24));
}

/** Trays of two doses in each cook. */
function cookPairs(observations: ReadonlyArray<Observation>, from: string, to: string): CookPair[] {
  const cooks = new Map<string, CookPair>();
  for (const { arm, source } of observations) {
    const cook = source.batch ?? "";
    const pair = cooks.get(cook) ?? { from: 0, to: 0 };
    cooks.set(cook, pair);
    if (arm === from) pair.from++;
    if (arm === to) pair.to++;
  }
  return [...cooks.values()];
}

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

/** "24 further trays per dose over 4 further cooks". */
function neededParts(difference: number, input: MoreTraysInput): Sentence {
  const needed = moreNeeded(difference, input);
  if (needed === undefined) return ["more than 400 further cooks, which is out of reach"];
  if (needed.moreCooks === 0) return ["no further trays"];
  return [
    `${count(needed.moreTraysPerDose, "further tray", "further trays")} per dose over ${count(needed.moreCooks, "further cook", "further cooks")}`,
  ];
}

function soughtOf(spread: BookSpread, worth: WorthwhileDifference, seen: number): Sought[] {
  const shares = [0.05, 0.1, 0.15, 0.2, 0.3].map((share) => ({
    label: `${Math.round(share * 100)}% of a tray`,
    grams: share * Math.abs(spread.mean),
  }));
  return [
    ...shares,
    ...(worth.isForLiquid ? [{ label: worth.label, grams: worth.grams }] : []),
    { label: "as seen so far", grams: seen },
  ].filter(({ grams }) => grams > 0);
}

function answer(trial: Trial, compared: TreatmentComparison, spread: BookSpread, weight: YieldWeight): Outcome {
  const { settings } = trial;
  const { headline, comparison, observations, layout } = compared;
  const { treatment } = layout;
  const money = doseMoney(trial, weight);
  const prices = money.kind === "money" ? money : undefined;
  const worth = worthwhileDifference(
    trial.settings.worthwhileShare,
    spread.mean,
    prices,
    headline.from.dose,
    headline.to.dose,
  );
  const seen = Math.abs(headline.difference);
  const doses = comparison.arms.length;
  const whole = layout.unit !== "tray";
  const input: MoreTraysInput = {
    spread,
    doses,
    significance: settings.significanceLevel,
    // whole cooks or jars of one dose tell nothing inside a cook: the cooks to come have to hold every dose
    existing: whole ? [] : cookPairs(observations, headline.from.arm, headline.to.arm),
    existingTrays: whole ? 0 : observations.length,
    traysPerDose: usualTraysPerDose(observations, doses, trial),
    mean: spread.mean,
    traysPerDoseSoFar: whole ? 0 : Math.min(headline.from.n, headline.to.n),
    wanted: wantedChance,
  };
  const sequence = gainSequence(trial, compared);
  const decided = sequence.kind === "sequence" && sequence.realSince !== undefined;
  const pair: Sentence = [
    "between ",
    levelPart(treatment, headline.from.arm, headline.from.dose),
    " and ",
    levelPart(treatment, headline.to.arm, headline.to.dose),
  ];
  const needed = moreNeeded(worth.grams, input);
  const showWorth: Sentence = [
    "to show a difference of ",
    { value: worth.grams, unit: "g" },
    " (",
    ...worth.because,
    ") ",
    ...pair,
    " with a chance of ",
    { value: wantedChance, unit: "share" },
  ];
  const forWorth: Sentence = [...showWorth, " takes ", ...neededParts(worth.grams, input)];
  const forSeen: Sentence =
    seen > worth.grams
      ? ["; if it is as large as seen so far (", { value: seen, unit: "g" }, "), ", ...neededParts(seen, input)]
      : [];
  const sentence: Sentence = decided
    ? [
        "Already decided: no more trays are needed to tell that dose changes the yield ",
        ...pair,
        ". To measure it more finely, so as ",
        ...forWorth,
        ".",
      ]
    : needed?.moreCooks === 0
      ? [
          "The trays there are were enough ",
          ...showWorth,
          " or more, and none has been shown: a smaller one may be there",
          ...(seen > 0
            ? [
                "; for one as large as seen so far (",
                { value: seen, unit: "g" } as const,
                "): ",
                ...neededParts(seen, input),
              ]
            : []),
          ".",
        ]
      : [
          "Not decided yet: ",
          ...forWorth,
          ...forSeen,
          `, ${count(input.traysPerDose, "tray", "trays")} of each dose in a cook.`,
        ];
  const sought = soughtOf(spread, worth, seen);
  const most = Math.floor(settings.shelfPlaces / doses);
  const perCook = [...new Set([2, 4, 6, 8, 12, input.traysPerDose])].filter((trays) => trays <= Math.max(1, most));
  const shownCooks = Math.max(4, Math.min(24, needed?.moreCooks ?? 24));
  const { traySd, cookSd, cookDoseSd } = spread;
  return {
    kind: "answer",
    sentence,
    certainty: decided ? "settled" : "leaning",
    ...moreTraysFront(
      decided,
      needed,
      worth.grams / Math.abs(spread.mean),
      chanceToShow(worth.grams, { ...input, moreCooks: 0 }),
      wantedChance,
    ),
    estimates: [
      { label: "between trays of one dose in one cook, standard deviation", value: traySd },
      ...(spread.cooks > 1 ? [{ label: "between cooks, standard deviation", value: cookSd }] : []),
      ...(spread.cooks > 1 ? [{ label: "of a dose from cook to cook, standard deviation", value: cookDoseSd }] : []),
    ].map(({ label, value }) => ({
      label,
      value,
      level: settings.intervalLevel,
      unit: "g",
      n: spread.trays,
      nUnit: "trays",
      method: spread.cooks > 1 ? "mixed model" : "pooled",
    })),
    tables: [
      differenceTable(sought, input),
      ...(perCook.length === 0
        ? []
        : [
            chanceTable(
              worth.grams,
              input,
              perCook.sort((a, b) => a - b),
              [1, 2, 3, 4, 6, 8],
            ),
          ]),
    ],
    charts: [
      chanceChart(
        [{ label: worth.label, grams: worth.grams }, ...(seen > 0 ? [{ label: "as seen so far", grams: seen }] : [])],
        input,
        shownCooks,
      ),
    ],
    excluded: compared.excluded,
    method: [
      layoutSentence(layout),
      spread.says,
      [
        `Power by the noncentral t for two of ${doses} doses compared inside cooks, all pairs allowed for (Bonferroni) at ${Math.round(settings.significanceLevel * 100)}%; trays of one dose in one cook share what that cook does to that dose, so they count for less than as many in several cooks (design effect).`,
      ],
      worth.says,
    ],
    caveats: [
      [
        "Every further cook has to hold every dose, drawn at random tray by tray; what a cook does to all its trays then drops out.",
      ],
      ...(cookDoseSd > 0
        ? [
            [
              "A dose does not do the same in every cook here, so more cooks help more than more trays in a cook.",
            ] satisfies Sentence,
          ]
        : [
            [
              "No difference between what a dose does in one cook and in another could be seen; with few cooks that says little, so spread the trays over three cooks or more.",
            ] satisfies Sentence,
          ]),
      [
        "The difference seen so far is a poor guide to plan by: the largest of several differences tends to be too large.",
      ],
      ...(spread.degreesOfFreedom < 20
        ? [
            [
              `The spread itself rests on few trays (${spread.degreesOfFreedom} degrees of freedom), so take these numbers as rough.`,
            ],
          ]
        : []),
      ...(money.kind === "cannot-tell" ? [[`What a gain is worth in money is not in it: ${money.reason}.`]] : []),
    ],
  };
}

function run(trial: Trial): Outcome {
  const layout = readLayout(trial.trays, doseFactor, trial.memo);
  const doses = Math.max(2, layout.arms.length);
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell how many more trays are needed: no good tray has a weight, so how much trays vary is not known."],
      ["Weigh each tray on its own. Until then the table of usual spreads is a start."],
      { tables: usualSpreads(doses, trial) },
    );
  }
  const response = yieldPerGoodTray(weight);
  const { observations, excluded } = observe(trial.trays, doseFactor, response);
  const spread = bookSpread(observations);
  const verdict = confounding(layout);
  if (verdict.kind === "not-separable") {
    return noAnswer(
      [...verdict.reason, " So no number of further trays laid out this way would decide."],
      [...verdict.wouldSettle, ...freshTrial(spread, doses, trial, weight)],
      { excluded, method: [layoutSentence(layout)], tables: spread === undefined ? usualSpreads(doses, trial) : [] },
    );
  }
  const compared = compareTreatment(trial, doseFactor, response, "higher");
  if (compared.kind === "cannot-tell" || spread === undefined) {
    const thin = compared.kind === "cannot-tell" ? compared.reason : ["too few trays to tell how much they vary."];
    return noAnswer(
      ["Cannot tell how many more trays are needed from this book yet. ", ...thin],
      [
        `Start with ${trial.settings.minimumTraysPerArm} trays of each dose in each of two cooks, then ask again.`,
        ...freshTrial(spread, doses, trial, weight),
      ],
      {
        excluded,
        missing: { kind: "trays", need: "4 trays of each dose in each of two cooks" },
        method: [layoutSentence(layout)],
        tables: spread === undefined ? usualSpreads(doses, trial) : [],
      },
    );
  }
  return answer(trial, compared, spread, weight);
}

/** How many more trays over how many cooks would decide between doses. */
export const howManyMoreTrays: Analysis = {
  id: "how-many-more-trays",
  name: "How many more trays",
  question: "How many more trays, over how many cooks, would decide it?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: ["trays and cooks to come vary as those in the book", "every further cook holds every dose"],
  topic: "growing",
  headline: true,
  run,
};
