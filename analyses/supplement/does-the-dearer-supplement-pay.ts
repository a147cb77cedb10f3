import type { Analysis, CannotTell, Outcome, Trial } from "../../src/analysis.ts";
import { gainsOver, judgeGain } from "../../src/decisions/verdict/index.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookPrices } from "../costs/book-prices.ts";
import { dosePrices } from "../costs/dose-prices.ts";
import { type SupplementCost, supplementCosts } from "../costs/supplement-costs.ts";
import { cannotTellWords, capOf } from "../treatment/cannot-tell-words.ts";
import { capNotes } from "../treatment/decision-notes.ts";
import { someLost } from "../treatment/treatment-answer.ts";
import { type TreatmentDecision, thingsOf } from "../treatment/treatment-decision.ts";
import { levelsTable } from "../treatment/treatment-tables.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import { dearerAnswer } from "./dearer-supplement-answer.ts";
import type { Dearer } from "./dearer-supplement-table.ts";
import { dearerPays } from "./supplement-money.ts";

const start = "Cannot tell whether the dearer supplement pays: ";

/** What names a supplement in the order in which it is asked about: its grade, else which it is. */
const named: ReadonlyArray<string> = ["supplement_grade", "supplement"];

function supplementThing(trial: Trial): VariedThing | undefined {
  const things = thingsOf(trial);
  return named.flatMap((key) => things.filter(({ factor }) => factor.key === key))[0];
}

/** Why no gain can be weighed. */
function noGainReason(of: TreatmentDecision): { reason: string; remedy: string } {
  const { decision, beside } = of;
  const started = of.started();
  const what = inSentence(of.thing.factor.label);
  if (started === undefined || started.difference === undefined)
    return cannotTellWords(what, started ?? decision, beside);
  const cap = capOf(started);
  return {
    reason: "the layout gives the gain no range",
    remedy: (cap === undefined ? undefined : capNotes[cap]) ?? "Write down the cook of each tray.",
  };
}

/** Every level of the comparison with what its supplement costs, the cheapest first. */
function costsOf({ thing, started }: TreatmentDecision, prices: PricesOf): SupplementCost[] {
  const compared = new Set(started()?.levels.map(({ level }) => String(level)));
  return supplementCosts(prices.costs, thing.factor)
    .filter(({ level }) => compared.has(level))
    .sort((a, b) => a.perTray - b.perTray || a.level.localeCompare(b.level, "en", { numeric: true }));
}

type PricesOf = Extract<ReturnType<typeof bookPrices>, { kind: "prices" }>;

function weigh(trial: Trial, of: TreatmentDecision, prices: PricesOf, weight: "dry" | "fresh"): Outcome {
  const { thing, settings } = of;
  // where no tray was lost a started tray is a good one
  const basis = someLost(of) ? of.started() : of.decision;
  const what = inSentence(thing.factor.label);
  const cannot = (reason: string, settle: string): CannotTell =>
    noAnswer([`${start}${reason}.`], [settle], {
      tables: [levelsTable(of, of.decision)],
      excluded: of.gathered.excluded,
    });
  const net = dosePrices(trial, prices, weight === "dry" ? "dried" : "fresh");
  if (net.kind === "cannot-tell") {
    return cannot(net.reason, "Add a product with its price to products.csv, and harvest and weigh at least one tray.");
  }
  if (!(net.perGram > 0)) {
    return cannot(
      "a gram leaves nothing after fees, packing and drying, so more of it pays for nothing",
      "Check the prices in products.csv.",
    );
  }
  const [cheapest, ...rest] = costsOf(of, prices);
  const dear = rest.filter(({ perTray }) => perTray > cheapest!.perTray * (1 + 1e-9) && perTray > 0);
  if (cheapest === undefined || dear.length === 0) {
    return cannot(
      `costs.csv gives every ${what} the same cost, so none is dearer`,
      `Give each ${what} its own line in costs.csv, with only_where_column ${thing.factor.key} and its name under only_where_value.`,
    );
  }
  const gains = basis === undefined ? [] : gainsOver(basis, cheapest.level, settings);
  const dearer = dear.flatMap((cost): Dearer[] => {
    const gain = gains.find(({ level }) => level === cost.level);
    if (gain === undefined || basis === undefined) return [];
    const pays = dearerPays({ value: gain.estimate, low: gain.lower, high: gain.upper }, cost, cheapest, net.perGram);
    const least = (cost.perTray - cheapest.perTray) / net.perGram;
    return [{ cost, gain, pays, judged: judgeGain(basis, gain, least, dear.length, settings) }];
  });
  if (dearer.length === 0 || basis === undefined) {
    const { reason, remedy } = noGainReason(of);
    return cannot(reason, remedy);
  }
  return dearerAnswer(trial, {
    of,
    basis,
    weight,
    cheapest,
    dearer,
    netPerGram: net.perGram,
    products: net.sold.products,
  });
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial);
  if (weight === undefined) {
    return noAnswer([`${start}no good tray has a weight.`], ["Weigh each tray at harvest and after drying."]);
  }
  const thing = supplementThing(trial);
  const of = thing === undefined ? undefined : yieldDecision(trial, thing);
  if (of === undefined) {
    return noAnswer(
      [`${start}every finished tray had the same one, or none is written down.`],
      ["Give half the trays of each cook another supplement or grade, and write it down."],
      { missing: { kind: "vary", need: "a second supplement or grade in the same cooks" } },
    );
  }
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${prices.reason}.`],
      ["Fill in costs.csv, with a line for each supplement grade, and products.csv."],
    );
  }
  return weigh(trial, of, prices, weight);
}

/** Whether a dearer supplement earns its price back, and at what price it stops. */
export const doesTheDearerSupplementPay: Analysis = {
  id: "does-the-dearer-supplement-pay",
  name: "Dearer supplement",
  question: "Does the dearer supplement pay, and at what price does it stop paying?",
  needs: ["tray_id", "outcome", "supplement_grade"],
  assumes: [
    "grades were given to trays at random within each cook",
    "what is gained is sold at today's net price",
    "one gram of yield is worth the same whatever it grew on",
  ],
  topic: "money",
  headline: false,
  run,
};
