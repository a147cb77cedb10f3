import type {
  Analysis,
  AnswerFront,
  CannotTell,
  Chart,
  Estimate,
  Missing,
  Outcome,
  Quantity,
  Sentence,
  Table,
  Trial,
} from "../../src/analysis.ts";
import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import { type CostAccount, costAccount } from "../../src/costing/trays/cost-account.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { batchFactor, doseFactor, gradeFactor } from "../../src/design/factor.ts";
import { counted } from "../../src/records/counted.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { capital } from "../comparison/level-text.ts";
import { missingTrays } from "../comparison/missing-trays.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookCosts, costsWithGuesses } from "./book-prices.ts";
import {
  costTable,
  gramKindTable,
  idleSentences,
  lossMoneyTable,
  lossTable,
  monthFactor,
  sheetTable,
} from "./cost-tables.ts";
import { type GramCostInterval, gramCostInterval, gramWord } from "./gram-cost.ts";
import { breakdownChart, byDoseChart } from "./gram-cost-charts.ts";
import { boundOfCosts } from "./money-doubts.ts";

const cannotTell = (reason: string, settle: string, missing: Missing): CannotTell =>
  noAnswer([`Cannot tell what a good gram cost: ${reason}.`], [settle], { missing });

function estimate(trial: Trial, label: string, cost: GramCostInterval): Estimate {
  return {
    label,
    value: cost.value,
    ...(cost.low === undefined || cost.high === undefined ? {} : { low: cost.low, high: cost.high }),
    level: trial.settings.intervalLevel,
    unit: "money/g",
    n: cost.units,
    nUnit: cost.unitName,
    method: "ratio of sums, Fieller's interval",
  };
}

const intervalPart = ({ low, high }: GramCostInterval): Sentence =>
  low === undefined || high === undefined ? [] : [" (", { from: low, to: high, unit: "money/g", isNamed: true }, ")"];

/** The book's gram: of the weight its yields are in, where good trays have it. */
interface MainGram {
  /** "dry gram", in ounces where the report is */
  word: string;
  /** the other kind of gram, where good trays have its weight */
  otherWord: string;
  kind: "dried" | "fresh";
  cost: GramCostInterval;
  other: GramCostInterval | undefined;
  beyondUsual: number;
  /** undefined where no line is the owner's own time */
  withoutOwner: number | undefined;
  /** with every line that could not be read counted as it could be */
  withGuesses: number | undefined;
  /** a cost line is missing, or not counted for all trays, so that it cost no less than this; or no more, where money came back */
  bound: ReturnType<typeof boundOfCosts>;
}

function mainGram(trial: Trial, costs: TrayCosts, account: CostAccount): MainGram | CostCannotTell {
  const dried = gramCostInterval(trial, account.perGram.dried);
  const fresh = gramCostInterval(trial, account.perGram.fresh);
  const isFresh = dried.kind !== "interval" || (fresh.kind === "interval" && yieldWeightOf(trial) === "fresh");
  const [kind, cost, other] = isFresh ? (["fresh", fresh, dried] as const) : (["dried", dried, fresh] as const);
  if (cost.kind === "cannot-tell") return cost;
  const found = account.perGram[kind];
  const valueIn = (priced: CostAccount | CostCannotTell | undefined): number | undefined => {
    const gram = priced?.kind === "account" ? priced.perGram[kind] : undefined;
    return gram?.kind === "gram-cost" ? gram.withAllLosses : undefined;
  };
  const guessed = costsWithGuesses(costs);
  return {
    word: gramWord(kind, trial.settings),
    otherWord: gramWord(kind === "dried" ? "fresh" : "dried", trial.settings),
    kind,
    cost,
    other: other.kind === "interval" ? other : undefined,
    beyondUsual: found.kind === "gram-cost" ? found.withAllLosses - found.withNormalLoss : 0,
    withoutOwner: costs.items.some(({ ownerLabour }) => ownerLabour)
      ? valueIn(costAccount(costs, "without owner labour"))
      : undefined,
    bound: boundOfCosts(costs.doubts),
    withGuesses: guessed === undefined ? undefined : valueIn(costAccount(guessed, "full")),
  };
}

function answerSentence(
  { word, otherWord, cost, other, beyondUsual, withoutOwner, withGuesses, bound }: MainGram,
  account: CostAccount,
): Sentence {
  const { good } = account.loss;
  const money = (value: number): Quantity => ({ value, unit: "money/g", isNamed: true });
  return [
    `A good ${word} cost ${bound === "" ? "" : `${bound} `}`,
    money(cost.value),
    ...intervalPart(cost),
    `, lost trays included. It rests on ${counted(good, "good tray")}`,
    cost.unitName === "cooks" ? ` of ${cost.units} cooks` : "",
    cost.low === undefined ? ", too few for a range." : ".",
    // two ways of adding up one amount differ in their last digits
    ...(beyondUsual > 1e-9 * cost.value
      ? [" Losses beyond the usual are ", { ...money(beyondUsual), digits: 2 }, " of it."]
      : []),
    ...(withoutOwner === undefined
      ? [" No line of costs.csv is your own time."]
      : [" Without your own time it is ", money(withoutOwner), "."]),
    ...(other === undefined ? [] : [` A good ${otherWord} cost `, money(other.value), ...intervalPart(other), "."]),
    ...(withGuesses === undefined
      ? []
      : [" With what could not be read counted as it could be: ", money(withGuesses), "."]),
  ];
}

function tablesOf(trial: Trial, costs: TrayCosts, account: CostAccount, kind: MainGram["kind"]): Table[] {
  return [
    gramKindTable(trial, account),
    lossMoneyTable(account, costs, kind, gramWord(kind, trial.settings)),
    costTable(trial, costs, doseFactor),
    costTable(trial, costs, gradeFactor),
    costTable(trial, costs, monthFactor),
    costTable(trial, costs, batchFactor),
    sheetTable(costs),
    lossTable(account),
  ].filter((table): table is Table => table !== undefined);
}

function caveatsOf(trial: Trial, costs: TrayCosts, { loss }: CostAccount): Sentence[] {
  return [
    ...missingTrays(trial),
    ...idleSentences(costs),
    [
      "A started tray cost ",
      { value: loss.costPerStarted, unit: "money" },
      ", a good one with every lost tray paid for ",
      { value: loss.costPerGoodWithAllLosses, unit: "money" },
      ...(loss.abnormal > 0
        ? [", with the usual loss only ", { value: loss.costPerGood, unit: "money" } as const]
        : []),
      ".",
    ],
    ...saidOnce(costs.issues),
    ["What counts as a cost of stock for tax differs by place: ask an accountant."],
  ];
}

/** What lines of costs are counted without, each said once with the rows it holds for. */
function saidOnce(issues: TrayCosts["issues"]): Sentence[] {
  const said = new Map<string, { file: string; text: string; rows: number[] }>();
  for (const { file, row, reason, action } of issues) {
    const text = `${reason}${action ? `. ${capital(action)}` : ""}`;
    const one = said.get(`${file}: ${text}`) ?? { file, text, rows: [] };
    if (row > 0) one.rows.push(row);
    said.set(`${file}: ${text}`, one);
  }
  return [...said.values()].map(({ file, text, rows }) => {
    const which = rows.length === 0 ? "" : `, ${rows.length === 1 ? "row" : "rows"} ${rows.join(", ")}`;
    return [`${file}${which}: ${text}`];
  });
}

function frontOf({ word, cost, withoutOwner, bound }: MainGram): AnswerFront {
  const range = cost.low === undefined || cost.high === undefined ? {} : { from: cost.low, to: cost.high };
  return {
    short: [
      withoutOwner === undefined
        ? `A good ${word}, lost trays included, your own time not.`
        : `A good ${word}, lost trays and your own time included.`,
    ],
    figure: {
      label: `a good ${word}${bound === "" ? "" : `, ${bound}`}`,
      value: cost.value,
      unit: "money/g",
      ...range,
    },
    strip: {
      kind: "amount",
      unit: "money/g",
      value: cost.value,
      ...range,
      ...(withoutOwner === undefined ? {} : { others: [{ name: "without your time", value: withoutOwner }] }),
    },
  };
}

function run(trial: Trial): Outcome {
  const { costLines, trays } = trial;
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") {
    return cannotTell(
      costs.reason,
      costLines === undefined || costLines.length === 0
        ? "Type what you buy, use and pay for into costs.csv, one row each; gramwright new writes one with the headers."
        : "See the log for the rows of costs.csv that were left out.",
      { kind: "costs", need: "cost lines in costs.csv" },
    );
  }
  const account = costAccount(costs, "full");
  const unweighed: Missing = { kind: "record", need: "the weight of good trays, fresh and dry" };
  if (account.kind === "cannot-tell")
    return cannotTell(account.reason, "Harvest and weigh at least one tray.", unweighed);
  const main = mainGram(trial, costs, account);
  if ("reason" in main) return cannotTell(main.reason, "Weigh trays at harvest and after drying.", unweighed);
  const gramCost = account.perGram[main.kind];
  const charts = [
    byDoseChart(trial, costs, main),
    gramCost.kind === "gram-cost" ? breakdownChart(costs, gramCost, account.loss.good, main) : undefined,
  ].filter((chart): chart is Chart => chart !== undefined);
  return {
    kind: "answer",
    ...frontOf(main),
    sentence: answerSentence(main, account),
    certainty: "measured",
    estimates: [
      estimate(trial, `good ${main.word}`, main.cost),
      ...(main.other === undefined ? [] : [estimate(trial, `good ${main.otherWord}`, main.other)]),
    ],
    tables: tablesOf(trial, costs, account, main.kind),
    charts,
    excluded:
      account.growing === 0
        ? []
        : [
            {
              trays: trays.filter(({ outcome }) => outcome === "growing").map(({ trayId }) => trayId),
              reason: "still growing, so what they give is not known; what they have cost so far is in the cost sheet",
            },
          ],
    method: [
      [
        "Every cost line is put on the trays it was spent on, up to the stage each tray reached; the sum over finished trays, all losses of the period in it, is divided by the grams of the good ones.",
      ],
      [`Interval by Fieller's method for a ratio, over ${main.cost.units} ${main.cost.unitName}: ${main.cost.says}.`],
    ],
    caveats: caveatsOf(trial, costs, account),
  };
}

/** What one good gram cost, failed trays included. */
export const whatDoesAGoodGramCost: Analysis = {
  id: "what-does-a-good-gram-cost",
  name: "What a gram cost",
  question: "What does one good gram cost, failed trays included?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  assumes: ["costs.csv lists everything that is paid for", "another cook would be like these"],
  topic: "money",
  costsOnly: true,
  headline: true,
  run,
};
