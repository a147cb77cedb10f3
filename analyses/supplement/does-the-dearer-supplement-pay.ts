import type { Analysis, CannotTell, Certainty, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { armsOf } from "../../src/design/arm.ts";
import { doseFactor, type Factor, gradeFactor, supplementFactor } from "../../src/design/factor.ts";
import { compareTreatment, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { layoutGrid } from "../comparison/confounding.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { yieldPerGoodTray, yieldPerStartedTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { levelChart, levelTable } from "../comparison/treatment-facts.ts";
import { bookPrices } from "../costs/book-prices.ts";
import { dosePrices } from "../costs/dose-prices.ts";
import { adjustedDifference } from "./adjusted-difference.ts";
import { type Dearer, estimatesOf, moneyTable, type SupplementFacts } from "./dearer-supplement-tables.ts";
import { dearerFront } from "./supplement-fronts.ts";
import { dearerPays, supplementCosts } from "./supplement-money.ts";

const start = "Cannot tell whether the dearer supplement pays: ";

/** Grades where there are two or more, else supplements. */
const treatmentOf = ({ trays }: Trial): Factor =>
  armsOf(trays, gradeFactor).arms.length >= 2 || armsOf(trays, supplementFactor).arms.length < 2
    ? gradeFactor
    : supplementFactor;

function certaintyOf({ pays, gain }: Dearer): Certainty {
  if (pays.extra.low > 0 || pays.extra.high < 0) return "settled";
  return gain.p < 0.2 && pays.extra.value !== 0 ? "leaning" : "open";
}

function stopsParts({ pays }: Dearer, netPerGram: number): Sentence {
  const { stopsBelow, mostPerKg } = pays;
  if (stopsBelow.kind === "cannot-tell") return [stopsBelow.reason];
  return [
    "it stops paying below a net price of ",
    { value: stopsBelow.value, unit: "money/g" },
    " (",
    { from: stopsBelow.low, to: stopsBelow.high, unit: "money/g" },
    "; now ",
    { value: netPerGram, unit: "money/g" },
    ")",
    ...(mostPerKg === undefined
      ? []
      : [
          ", or once the supplement costs more than ",
          { value: mostPerKg.value, unit: "money/kg" },
          " (",
          { from: mostPerKg.low, to: mostPerKg.high, unit: "money/kg" } as const,
          ")",
        ]),
  ];
}

function answerSentence({ cheapest, netPerGram, compared }: SupplementFacts, main: Dearer): Sentence {
  const { gain, pays, cost } = main;
  const sure = certaintyOf(main) === "settled";
  const which = `${compared.layout.treatment.label} ${cost.level}`;
  const verdict = sure
    ? `${which} ${pays.extra.value > 0 ? "pays" : "does not pay"} against ${cheapest.level}: `
    : `Whether ${inSentence(which)} pays against ${cheapest.level} cannot be told from chance yet: `;
  return [
    verdict,
    { value: gain.difference, unit: "g", signed: true },
    " (",
    { from: gain.low, to: gain.high, unit: "g", signed: true },
    `) ${compared.response.label}, for `,
    { value: cost.perTray - cheapest.perTray, unit: "money", signed: true },
    " of supplement, leaves ",
    { value: pays.extra.value, unit: "money", signed: true },
    " (",
    { from: pays.extra.low, to: pays.extra.high, unit: "money", signed: true },
    ") a tray; ",
    ...stopsParts(main, netPerGram),
    ".",
  ];
}

function answer(trial: Trial, facts: SupplementFacts, goodCompared: TreatmentComparison | undefined): Outcome {
  const { compared, cheapest, dearer, treatment, products } = facts;
  const main = dearer.reduce((best, one) => (one.pays.extra.value > best.pays.extra.value ? one : best));
  const options = { level: trial.settings.intervalLevel, pairs: dearer.length };
  const bothKnown = [cheapest.level, main.cost.level].every((level) =>
    goodCompared?.comparison.arms.some(({ arm }) => arm === level),
  );
  const goodGain =
    goodCompared !== undefined && bothKnown
      ? adjustedDifference(goodCompared, doseFactor, cheapest.level, main.cost.level, options)
      : undefined;
  const grid = layoutGrid(compared.layout);
  const { response } = compared;
  const alreadySaid = new Set(compared.caveats.map((caveat) => caveat.join("")));
  return {
    kind: "answer",
    sentence: answerSentence(facts, main),
    certainty: certaintyOf(main),
    ...dearerFront(main.pays.extra, main.cost.level, cheapest.level, certaintyOf(main) === "settled"),
    estimates: estimatesOf(trial, facts, goodGain, main),
    tables: [moneyTable(facts), levelTable(trial, compared, goodCompared), ...(grid === undefined ? [] : [grid])],
    charts: [
      levelChart(compared),
      {
        kind: "intervals",
        title: `What a dearer ${inSentence(treatment.label)} leaves more`,
        description: dearer
          .map(
            ({ cost, pays }) => `${cost.level} against ${cheapest.level}: ${pays.extra.value.toPrecision(2)} per tray`,
          )
          .join("; "),
        unit: "money/tray",
        valueLabel: `left more per started tray than ${cheapest.level}`,
        rows: dearer.map(({ cost, pays: { extra } }) => ({ label: cost.level, ...extra })),
        reference: 0,
      },
    ],
    excluded: compared.excluded,
    method: [
      ...main.gain.method,
      [
        `Money: the gain in ${response.label} times what a gram leaves (${products.join(", ")}), less what the supplement costs more by the lines of costs.csv that belong to it.`,
      ],
      [
        "Net price at which it stops paying: extra cost over the gain, Fieller's set for a ratio whose numerator is exact.",
      ],
    ],
    caveats: [
      ...main.gain.notes.filter((note) => !alreadySaid.has(note.join(""))),
      ...compared.caveats,
      [
        "Only yield and the price of the supplement are weighed: more picking on trays that would otherwise be lost, or days saved, are not.",
      ],
    ],
  };
}

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${prices.reason}.`],
      ["Fill in costs.csv, with a line for each supplement grade, and products.csv."],
    );
  }
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer([`${start}no good tray has a weight.`], ["Weigh each tray at harvest and after drying."]);
  }
  const treatment = treatmentOf(trial);
  const compared = compareTreatment(trial, treatment, yieldPerStartedTray(weight), "higher");
  if (compared.kind === "cannot-tell") {
    return { ...compared, reason: [`${start}yields cannot be compared. `, ...compared.reason] } satisfies CannotTell;
  }
  const cannot = (reason: string, settle: string): CannotTell =>
    noAnswer([`${start}${reason}.`], [settle], {
      tables: [levelTable(trial, compared)],
      excluded: compared.excluded,
      method: compared.method,
    });
  const net = dosePrices(trial, prices, weight === "dry" ? "dried" : "fresh");
  if (net.kind === "cannot-tell") {
    return cannot(net.reason, "Add a product with its price to products.csv, and harvest and weigh at least one tray.");
  }
  const netPerGram = net.perGram;
  if (!(netPerGram > 0)) {
    return cannot(
      "a gram leaves nothing after fees, packing and drying, so more of it pays for nothing",
      "Check the prices in products.csv.",
    );
  }
  const usable = new Set(compared.comparison.arms.map(({ arm }) => arm));
  const costs = supplementCosts(prices.costs, treatment)
    .filter(({ level }) => usable.has(level))
    .sort((a, b) => a.perTray - b.perTray || a.level.localeCompare(b.level, "en", { numeric: true }));
  const cheapest = costs[0];
  const dear = costs.filter(
    ({ perTray }) => cheapest !== undefined && perTray > cheapest.perTray * (1 + 1e-9) && perTray > 0,
  );
  if (cheapest === undefined || dear.length === 0) {
    return cannot(
      `costs.csv gives every ${inSentence(treatment.label)} the same cost, so none is dearer`,
      `Give each ${inSentence(treatment.label)} its own line in costs.csv, with only_where_column ${treatment.key} and its name under only_where_value.`,
    );
  }
  const options = { level: trial.settings.intervalLevel, pairs: dear.length };
  const dearer = dear.map((cost): Dearer => {
    const gain = adjustedDifference(compared, doseFactor, cheapest.level, cost.level, options);
    const { difference: value, low, high } = gain;
    return { cost, gain, pays: dearerPays({ value, low, high }, cost, cheapest, netPerGram) };
  });
  const good = compareTreatment(trial, treatment, yieldPerGoodTray(weight), "higher");
  return answer(
    trial,
    { treatment, compared, cheapest, dearer, netPerGram, products: net.products },
    good.kind === "compared" ? good : undefined,
  );
}

/** Whether a dearer supplement earns its price back, and at what price it stops. */
export const doesTheDearerSupplementPay: Analysis = {
  id: "does-the-dearer-supplement-pay",
  name: "Dearer supplement",
  question: "Does the dearer supplement pay, and at what price does it stop paying?",
  needs: ["tray_id", "outcome", "supplement_grade"],
  experimentalUnit: "tray",
  assumes: [
    "grades were given to trays at random within each cook",
    "what is gained is sold at today's net price",
    "one gram of yield is worth the same whatever it grew on",
  ],
  topic: "money",
  headline: false,
  run,
};
