import type { Analysis, CannotTell, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { accountsBy, costAccount } from "../../src/costing/trays/cost-account.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { armsOf } from "../../src/design/arm.ts";
import { batchFactor, doseFactor, gradeFactor } from "../../src/design/factor.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { levelLabel } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { missingTrays } from "../rows/missing-trays.ts";
import { bookCosts } from "./book-prices.ts";
import { costTable, gramKindTable, lossTable, monthFactor, sheetTable } from "./cost-tables.ts";
import { type GramCostInterval, gramCostInterval } from "./gram-cost.ts";

const cannotTell = (reason: string, settle: string): CannotTell =>
  noAnswer([`Cannot tell what a good gram cost: ${reason}.`], [settle]);

/** The cost of a dry gram, line by line. */
function breakdownChart(costs: TrayCosts, grams: number): Chart {
  const finished = costs.trays.flatMap((tray, index) => (hasEnded(tray) ? [index] : []));
  const byItem = new Map<string, { value: number; kind: string }>();
  costs.items.forEach(({ item, kind }, row) => {
    const sum = finished.reduce((total, index) => total + costs.amounts[row]![index]!, 0);
    const entry = byItem.get(item) ?? { value: 0, kind };
    byItem.set(item, entry);
    entry.value += sum / grams;
  });
  const parts = [...byItem]
    .map(([label, { value, kind }]) => ({ label, value, group: kind }))
    .filter(({ value }) => value > 0)
    .sort((a, b) => b.value - a.value);
  return {
    kind: "breakdown",
    title: "What a good dry gram is made of, in money",
    description: `Longest first: ${parts
      .slice(0, 5)
      .map(({ label }) => label)
      .join(", ")}.`,
    unit: "money/g",
    valueLabel: "per good dry gram",
    parts,
  };
}

/** Cost per good dry gram of each dose with its interval. */
function byDoseChart(trial: Trial, costs: TrayCosts): Chart | undefined {
  const { arms } = armsOf(trial.trays, doseFactor);
  const accounts = new Map(accountsBy(costs, "full", doseFactor.level).map(({ key, account }) => [key, account]));
  const rows = arms.flatMap(({ level }) => {
    const account = accounts.get(level);
    if (account === undefined || account.kind === "cannot-tell") return [];
    const cost = gramCostInterval(trial, account.perGram.dried);
    if (cost.kind !== "interval" || cost.low === undefined || cost.high === undefined) return [];
    return [{ label: levelLabel(doseFactor, level), value: cost.value, low: cost.low, high: cost.high }];
  });
  if (rows.length < 2) return undefined;
  return {
    kind: "intervals",
    title: "Cost of a good dry gram by dose",
    description: rows.map(({ label, value }) => `${label}: ${value.toPrecision(3)} per g`).join("; "),
    unit: "money/g",
    valueLabel: "per good dry gram",
    rows,
  };
}

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
  low === undefined || high === undefined ? [] : [" (", { from: low, to: high, unit: "money/g" }, ")"];

/** What drawing whole cooks anew says beside Fieller's interval. */
function redrawnSentence({ redrawn, units, unitName }: GramCostInterval): Sentence {
  if (redrawn.kind === "not-redrawn") return [`The ${unitName} were not drawn anew: ${redrawn.reason}.`];
  const how =
    redrawn.method === "bca" ? "bias-corrected and accelerated bootstrap" : "bootstrap with percentile limits";
  return [
    `Drawing whole ${unitName} anew ${redrawn.draws} times (${how}, seed ${redrawn.seed}) gives `,
    { from: redrawn.low, to: redrawn.high, unit: "money/g" },
    units < 8 ? `; with only ${units} ${unitName} that range is too short, so go by Fieller's.` : ".",
  ];
}

function run(trial: Trial): Outcome {
  const { costLines, settings, trays } = trial;
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") {
    return cannotTell(
      costs.reason,
      costLines === undefined || costLines.length === 0
        ? "Type what you buy, use and pay for into costs.csv, one row each; gramwright new writes one with the headers."
        : "See the log for the rows of costs.csv that were left out.",
    );
  }
  const account = costAccount(costs, "full");
  if (account.kind === "cannot-tell") return cannotTell(account.reason, "Harvest and weigh at least one tray.");
  const dried = gramCostInterval(trial, account.perGram.dried, settings.seed);
  const fresh = gramCostInterval(trial, account.perGram.fresh, settings.seed);
  const main = dried.kind === "interval" ? dried : fresh;
  if (main.kind === "cannot-tell") return cannotTell(main.reason, "Weigh trays at harvest and after drying.");
  const mainGram = dried.kind === "interval" ? "dry" : "fresh";
  const ownerFree = costAccount(costs, "without owner labour");
  const withoutOwner =
    ownerFree.kind === "cannot-tell" ? undefined : ownerFree.perGram[mainGram === "dry" ? "dried" : "fresh"];
  const beside: Sentence[] = [
    ...(withoutOwner?.kind === "gram-cost"
      ? [["; ", { value: withoutOwner.withAllLosses, unit: "money/g" }, " without your own time"]]
      : []),
    ...(mainGram === "dry" && fresh.kind === "interval"
      ? [["; a good fresh gram cost ", { value: fresh.value, unit: "money/g" }, ...intervalPart(fresh)]]
      : []),
  ];
  const driedCost = account.perGram.dried;
  const charts = [
    byDoseChart(trial, costs),
    driedCost.kind === "gram-cost" ? breakdownChart(costs, driedCost.grams) : undefined,
  ].filter((chart): chart is Chart => chart !== undefined);
  const tables = [
    costTable(trial, costs, doseFactor),
    costTable(trial, costs, gradeFactor),
    costTable(trial, costs, monthFactor),
    costTable(trial, costs, batchFactor),
  ].filter((table): table is Table => table !== undefined);
  const { loss } = account;
  return {
    kind: "answer",
    sentence: [
      `A good ${mainGram} gram cost `,
      { value: main.value, unit: "money/g" },
      ...intervalPart(main),
      ", failed trays included",
      ...beside.flat(),
      ".",
    ],
    certainty: main.low === undefined ? "leaning" : "settled",
    estimates: [
      estimate(trial, `good ${mainGram} gram`, main),
      ...(mainGram === "dry" && fresh.kind === "interval" ? [estimate(trial, "good fresh gram", fresh)] : []),
    ],
    tables: [gramKindTable(trial, account), ...tables, sheetTable(costs), lossTable(account)],
    charts,
    excluded:
      account.growing === 0
        ? []
        : [
            {
              trays: trays.filter(({ outcome }) => outcome === "growing").map(({ trayId }) => trayId),
              reason:
                "still growing, so what they give is not known; what they have cost so far stands in the cost sheet",
            },
          ],
    method: [
      [
        "Every cost line is put on the trays it was spent on, up to the stage each tray reached; the sum over finished trays is divided by the grams of the good ones.",
      ],
      [`Interval by Fieller's method for a ratio, over ${main.units} ${main.unitName}: ${main.says}.`],
      redrawnSentence(main),
    ],
    caveats: [
      ...missingTrays(trial),
      [
        "Good trays alone, with only the usual loss: ",
        { value: loss.costPerGood, unit: "money" },
        " a tray; with every loss ",
        { value: loss.costPerGoodWithAllLosses, unit: "money" },
        "; per started tray ",
        { value: loss.costPerStarted, unit: "money" },
        ".",
      ],
      ...costs.issues.map(
        ({ file, row, reason, action }): Sentence => [
          `${file}${row > 0 ? `, row ${row}` : ""}: ${reason}${action ? `. ${action}` : ""}`,
        ],
      ),
      ["What counts as a cost of stock for tax differs by place: ask an accountant."],
    ],
  };
}

/** What one good gram cost, failed trays included. */
export const whatDoesAGoodGramCost: Analysis = {
  id: "what-does-a-good-gram-cost",
  name: "What a gram cost",
  question: "What does one good gram cost, failed trays included?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  experimentalUnit: "cook",
  assumes: ["costs.csv lists everything that is paid for", "another cook would be like these"],
  topic: "money",
  headline: true,
  run,
};
