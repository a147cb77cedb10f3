import type { Analysis, Answer, Estimate, Excluded, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { counted } from "../../src/records/counted.ts";
import { addTo } from "../../src/records/grouped.ts";
import { hasEnded, pickingsOf } from "../../src/records/tray.ts";
import { type YieldWeight, yieldWeightOf } from "../../src/records/yield-weight.ts";
import { type RateDifference, rateDifference } from "../../src/statistics/groups/rate-difference.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { flushMoney } from "./flush-money.ts";
import { type FreshTray, freshTrays, type LaterFlushes, laterFlushes } from "./flush-shares.ts";
import { flushChart, flushMoneyTable, flushTable } from "./flush-tables.ts";
import { flushFront, flushMissing } from "./process-fronts.ts";

const fewestKept = 4;
/** With fewer cooks trays are taken one by one. */
const fewestCooks = 3;

const settle: Sentence = [
  "Write one row for each picking with its flush number, date and weight (0 where nothing came), and keep some trays of each of three cooks for a second flush, drawn at random rather than the best-looking ones.",
];

/** Later and first flushes summed by cook, or tray by tray. */
function clustersOf(
  kept: ReadonlyArray<LaterFlushes>,
  fresh: ReadonlyArray<FreshTray>,
  gives: { later(row: LaterFlushes): number; fresh(row: FreshTray): number; days(row: FreshTray): number },
): { clusters: Parameters<typeof rateDifference>[0]; byCook: boolean } {
  const cooks = new Set(kept.map(({ tray }) => tray.batch));
  const byCook = !cooks.has(undefined) && cooks.size >= fewestCooks;
  const sums = new Map<string, { firstGives: number; firstDays: number; secondGives: number; secondDays: number }>();
  const of = (tray: LaterFlushes["tray"]) => {
    const key = byCook && tray.batch !== undefined ? `cook ${tray.batch}` : `tray ${tray.trayId}`;
    const entry = sums.get(key) ?? { firstGives: 0, firstDays: 0, secondGives: 0, secondDays: 0 };
    sums.set(key, entry);
    return entry;
  };
  for (const row of kept) {
    const entry = of(row.tray);
    entry.firstGives += gives.later(row) * row.tray.traysInPool;
    entry.firstDays += row.extraDays * row.tray.traysInPool;
  }
  for (const row of fresh) {
    const entry = of(row.tray);
    entry.secondGives += gives.fresh(row) * row.tray.traysInPool;
    entry.secondDays += gives.days(row) * row.tray.traysInPool;
  }
  return { clusters: [...sums.values()], byCook };
}

function compareRates(
  ...[kept, fresh, gives, level]: [...Parameters<typeof clustersOf>, number]
): (RateDifference & { byCook: boolean; clusters: number }) | undefined {
  const { clusters, byCook } = clustersOf(kept, fresh, gives);
  try {
    return { ...rateDifference(clusters, level), byCook, clusters: clusters.length };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return undefined;
  }
}

type Picked = { weight: YieldWeight } & ReturnType<typeof pickedApart>;

/** Trays picked apart by one weight, and why others could not be. */
function pickedApart(trays: Trial["trays"], weight: YieldWeight): { kept: LaterFlushes[]; excluded: Excluded[] } {
  const gaps = new Map<string, string[]>();
  const kept: LaterFlushes[] = [];
  for (const tray of trays) {
    const row = !hasEnded(tray) ? undefined : laterFlushes(tray, weight);
    if (row === undefined) continue;
    if (typeof row === "string") addTo(gaps, row, tray.trayId);
    else kept.push(row);
  }
  return {
    kept,
    excluded: [...gaps].map(([reason, names]) => ({ trays: names, reason: `picked more than once, but ${reason}` })),
  };
}

/** The weight with which more trays can be picked apart; pickings are often weighed fresh only, and dried together. */
function pickedByWeight(trays: Trial["trays"], usual: YieldWeight): Picked {
  const other = usual === "dry" ? "fresh" : "dry";
  const [first, second] = [usual, other].map((weight): Picked => {
    const one = weight as YieldWeight;
    return { weight: one, ...pickedApart(trays, one) };
  });
  return first!.kept.length * 2 >= second!.kept.length ? first! : second!;
}

type Rates = NonNullable<ReturnType<typeof compareRates>>;

/** Later flushes against new trays: in grams, in grams where new trays hold the place only while fruiting, and in money. */
interface FlushesCompared extends Picked {
  fresh: ReadonlyArray<FreshTray>;
  grams: Rates;
  fruitingOnly: Rates | undefined;
  money: ReturnType<typeof flushMoney>;
  inMoney: Rates | undefined;
  /** what decides: money where the book has prices */
  judged: Rates;
  clear: boolean;
  /** grams turn the other way where new trays colonise elsewhere */
  opposite: boolean;
}

function compareFlushes(trial: Trial, picked: Picked): FlushesCompared | undefined {
  const { intervalLevel: level, significanceLevel: alpha } = trial.settings;
  const { weight, kept } = picked;
  const fresh = freshTrays(trial.trays, weight);
  const inGrams = { later: (row: LaterFlushes) => row.laterGrams, fresh: (row: FreshTray) => row.grams };
  const grams = compareRates(kept, fresh, { ...inGrams, days: (row) => row.days }, level);
  if (grams === undefined) return undefined;
  const fruited = fresh.filter(({ fruitingDays = 0 }) => fruitingDays > 0);
  const fruitingOnly =
    fruited.length < fresh.length / 2
      ? undefined
      : compareRates(kept, fruited, { ...inGrams, days: (row) => row.fruitingDays ?? row.days }, level);
  const money = flushMoney(trial, weight, kept, fresh);
  const inMoney =
    money.kind === "cannot-tell"
      ? undefined
      : compareRates(
          kept,
          fresh,
          {
            later: (row) => row.laterGrams * (money.pricePerGram - money.costPerGram),
            fresh: (row) => row.grams * (money.pricePerGram - money.costPerGram) - money.costOfStarting,
            days: (row) => row.days,
          },
          level,
        );
  const judged = inMoney ?? grams;
  const opposite = fruitingOnly !== undefined && Math.sign(fruitingOnly.difference) !== Math.sign(grams.difference);
  return { ...picked, fresh, grams, fruitingOnly, money, inMoney, judged, clear: judged.p < alpha, opposite };
}

/** How sure it is on its own. */
function flushCertainty({ clear, judged, opposite, inMoney }: FlushesCompared): "settled" | "leaning" | "open" {
  const doubtful = opposite && inMoney === undefined;
  return clear && !doubtful ? "settled" : clear || judged.p < 0.2 ? "leaning" : "open";
}

function flushSentence(
  { weight, grams, inMoney, judged }: FlushesCompared,
  certainty: "settled" | "leaning" | "open",
): Sentence {
  const pays = judged.difference > 0;
  const [are, gives] = certainty === "settled" ? ["are", "gives"] : ["seem", "seems to give"];
  const opening =
    certainty === "open"
      ? "Whether later flushes are worth their place is not shown: "
      : pays
        ? `Later flushes ${are} worth their place: `
        : `Later flushes ${are} not worth their place: a new tray ${gives} more. `;
  return [
    opening,
    `${certainty === "open" || pays ? "they" : "They"} gave `,
    { value: grams.first, unit: `g ${weight}/shelf day` },
    " of extra time, a new tray in that place gives ",
    { value: grams.second, unit: `g ${weight}/shelf day` },
    " (difference ",
    { from: grams.low, to: grams.high, unit: `g ${weight}/shelf day`, signed: true },
    ")",
    ...(inMoney === undefined
      ? []
      : [
          "; in money they leave ",
          { value: inMoney.difference, unit: "money/shelf day", signed: true },
          " against a new tray (",
          { from: inMoney.low, to: inMoney.high, unit: "money/shelf day", signed: true },
          ")",
        ]),
    ".",
  ];
}

function flushEstimates({ weight, grams, fruitingOnly, inMoney }: FlushesCompared, level: number): Estimate[] {
  const estimateOf = (rates: Rates, label: string, unit: string): Estimate => ({
    ...{ label, value: rates.difference, low: rates.low, high: rates.high, level, unit },
    ...{ n: rates.clusters, nUnit: grams.byCook ? "cooks" : "trays", p: rates.p },
    method: "difference of two rates, each a ratio of sums over clusters",
  });
  const unit = `g ${weight}/shelf day`;
  return [
    ...(inMoney === undefined
      ? []
      : [estimateOf(inMoney, "money a place and day, later flushes against a new tray", "money/shelf day")]),
    estimateOf(grams, `${weight} yield a place and day, later flushes against a new tray`, unit),
    ...(fruitingOnly === undefined
      ? []
      : [estimateOf(fruitingOnly, "the same, where new trays hold the place only while fruiting", unit)]),
  ];
}

function flushCaveats({ kept, grams, money, opposite }: FlushesCompared, { trays }: Trial): Sentence[] {
  const single = trays.filter((tray) => tray.outcome === "good" && pickingsOf(tray).length < 2).length;
  return [
    [
      `${kept.length} records were kept for another flush and ${single} were not: if the best-looking ones were kept, later flushes look better than they are. A tray kept in vain counts only if its 0 was written down.`,
    ],
    ...(money.kind === "money"
      ? [
          [
            "Where places stand empty anyway, a later flush has only its own days and grams to pay for: it leaves ",
            { value: money.laterPerDay, unit: "money/shelf day", signed: true },
            ".",
          ] satisfies Sentence,
        ]
      : [
          [
            `Money is not counted: ${money.reason}. A new tray also costs what it takes to start it, which speaks for later flushes.`,
          ],
        ]),
    ...(opposite
      ? [
          [
            "If new trays colonise elsewhere and hold the place only while fruiting, the comparison in grams turns the other way.",
          ],
        ]
      : []),
    ...(grams.byCook ? [] : [["There are too few cooks to allow for differences between them."]]),
  ];
}

function flushAnswer(trial: Trial, compared: FlushesCompared): Answer {
  const { weight, kept, fresh, excluded, grams, money, inMoney, judged } = compared;
  const certainty = flushCertainty(compared);
  const saidAt = (word: typeof certainty) => ({
    sentence: flushSentence(compared, word),
    ...flushFront(judged, inMoney === undefined ? `g ${weight}/shelf day` : "money/shelf day", word),
  });
  return {
    kind: "answer",
    ...saidAt(certainty),
    certainty,
    ...(certainty === "settled" ? { lowered: saidAt("leaning") } : {}),
    estimates: flushEstimates(compared, trial.settings.intervalLevel),
    tables: [flushTable(kept, weight), ...(money.kind === "money" ? [flushMoneyTable(money)] : [])],
    charts: [flushChart(kept, weight)],
    excluded,
    method: [
      [
        `Later flushes: grams after the first picking over days from first to last picking, ${kept.length} records. New tray: first-flush grams over days from inoculation, lost trays with nothing, ${fresh.length} records. Interval over ${grams.byCook ? "cooks" : "trays taken one by one"} with ${grams.degreesOfFreedom} degrees of freedom.`,
      ],
    ],
    caveats: flushCaveats(compared, trial),
  };
}

function run(trial: Trial): Outcome {
  const { trays } = trial;
  const usual = yieldWeightOf(trial);
  if (usual === undefined) {
    return noAnswer(["Cannot tell whether later flushes are worth it: no good tray has a weight."], settle, {
      missing: flushMissing,
    });
  }
  const picked = pickedByWeight(trays, usual);
  const { kept, excluded, weight } = picked;
  if (kept.length < fewestKept) {
    const none = trays.every((tray) => pickingsOf(tray).length < 2);
    return noAnswer(
      [
        none
          ? "Cannot tell whether later flushes are worth it: no tray has more than one picking recorded."
          : `Cannot tell whether later flushes are worth it: only ${counted(kept.length, "tray has", "trays have")} a second picking with date and weight; ${fewestKept} are needed.`,
      ],
      settle,
      { missing: flushMissing, excluded },
    );
  }
  const compared = compareFlushes(trial, picked);
  if (compared !== undefined) return flushAnswer(trial, compared);
  return noAnswer(
    [
      "Cannot tell whether later flushes are worth it: there are no days between pickings, or none from inoculation to a first picking.",
    ],
    settle,
    { missing: flushMissing, excluded, tables: [flushTable(kept, weight)] },
  );
}

/** Whether flushes after the first are worth their shelf time. */
export const areLaterFlushesWorthIt: Analysis = {
  id: "are-later-flushes-worth-it",
  name: "Later flushes",
  question: "Are later flushes worth the shelf time?",
  needs: ["tray_id", "flush", "harvested_on"],
  assumes: [
    "a place that is freed is filled again at once",
    "trays were kept for another flush without regard to their looks",
  ],
  topic: "money",
  headline: false,
  run,
};
