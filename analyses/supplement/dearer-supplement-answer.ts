import type { Answer, Estimate, Sentence, Table, Trial } from "../../src/analysis.ts";
import { type Gain, gainsOver, type Verdict } from "../../src/decisions/verdict/index.ts";
import { inSentence } from "../comparison/level-text.ts";
import { cameTogether } from "../treatment/came-together.ts";
import { decisionNotes } from "../treatment/decision-notes.ts";
import { someLost } from "../treatment/treatment-answer.ts";
import { isDrawnByLot, thingsOf } from "../treatment/treatment-decision.ts";
import { levelsChart, levelsTable } from "../treatment/treatment-tables.ts";
import { chanceText, verdictSentence } from "../treatment/verdict-words.ts";
import { yieldWords } from "../treatment/what-changed-the-yield.ts";
import { type Dearer, moneyTable, type SupplementFacts } from "./dearer-supplement-table.ts";
import { dearerFront } from "./supplement-fronts.ts";

/** "it leaves 2.20 more a started tray (0.74 to 3.66)", with the grams behind it. */
function leaves({ cheapest, weight }: SupplementFacts, { pays: { extra }, gain, cost }: Dearer): Sentence {
  return [
    "it leaves ",
    { value: Math.abs(extra.value), unit: "money" },
    ` ${extra.value < 0 ? "less" : "more"} a started tray (`,
    { from: extra.low, to: extra.high, unit: "money", signed: true },
    "), with ",
    { value: gain.estimate, unit: "g", signed: true, digits: 2 },
    ` ${weight} (`,
    { from: gain.lower, to: gain.upper, unit: "g", signed: true },
    ") for ",
    { value: cost.perTray - cheapest.perTray, unit: "money" },
    " more of supplement",
  ];
}

/** Where it stops paying, in one sentence. */
function stops({ netPerGram }: SupplementFacts, { pays: { stopsBelow, mostPerKg } }: Dearer): Sentence {
  if (stopsBelow.kind === "cannot-tell") return [" As measured, it would pay at no price of a gram."];
  return [
    " It stops paying ",
    ...(mostPerKg === undefined
      ? []
      : ["above ", { value: mostPerKg.value, unit: "money/kg" } as const, " of supplement, or "]),
    "below a net price of ",
    { value: stopsBelow.value, unit: "money/g" },
    " (now ",
    { value: netPerGram, unit: "money/g" },
    ").",
  ];
}

function sentenceOf(facts: SupplementFacts, main: Dearer, verdict: Verdict): Sentence {
  const which = `${facts.of.thing.factor.label} ${main.cost.level}`;
  const against = ` against ${facts.cheapest.level}: `;
  const { chance } = main.judged;
  const chanceWords = `; the chance that it pays is ${chanceText(chance)}.`;
  const money = leaves(facts, main);
  const priced = stops(facts, main);
  if (verdict === "settled") {
    const pays = main.pays.extra.value > 0;
    return [`${which} ${pays ? "pays" : "does not pay"}${against}`, ...money, ".", ...(pays ? priced : [])];
  }
  if (verdict === "leaning") {
    return [
      `Leaning ${chance > 0.5 ? "to" : "against"} ${inSentence(which)}${against}`,
      ...money,
      chanceWords,
      ...priced,
    ];
  }
  return [`Not known yet whether ${inSentence(which)} pays${against}`, ...money, chanceWords, ...priced];
}

/** What each dearer level leaves and gains, the main one first; then the gain of a good tray. */
function estimatesOf({ cheapest, of, dearer, weight }: SupplementFacts, main: Dearer): Estimate[] {
  const { decision, settings } = of;
  const isStarted = someLost(of);
  const against = (level: string) => `${level} against ${cheapest.level}`;
  const shared = { level: 0.95, nUnit: "trays", unit: "g" };
  const good = decision.levels.reduce((sum, { values }) => sum + values.length, 0);
  const started = decision.levels.reduce((sum, level) => sum + level.started, 0);
  const grams = ({ level, estimate: value, lower: low, upper: high }: Gain, ofStarted: boolean): Estimate => ({
    ...shared,
    label: `${against(String(level))}, ${weight} yield per ${ofStarted ? "started" : "good"} tray`,
    value,
    low,
    high,
    n: ofStarted ? started : good,
    method: ofStarted
      ? "good trays and losses put together, other things that varied taken out"
      : "difference of good trays, other things that varied taken out",
  });
  const ofGood = isStarted ? gainsOver(decision, cheapest.level, settings) : [];
  return [main, ...dearer.filter((one) => one !== main)].flatMap(({ cost, pays: { extra }, gain, judged }) => [
    {
      ...shared,
      label: `left more per started tray, ${against(cost.level)}`,
      ...extra,
      unit: "money/tray",
      n: started,
      ...(judged.p === undefined ? {} : { p: judged.p }),
      method: "gain in yield times the net price, less the dearer supplement",
    },
    grams(gain, isStarted),
    ...ofGood.filter(({ level }) => level === cost.level).map((one) => grams(one, false)),
  ]);
}

/** How the money goes with what is said of the yield: that is of good trays, this of started ones. */
function besideYield(trial: Trial, { of, weight }: SupplementFacts): Sentence[] {
  const { decision } = of;
  if (decision.difference === undefined || !someLost(of)) return [];
  return [
    [
      "Money goes by started trays, lost ones as nothing. Good trays alone: ",
      ...verdictSentence(of, decision, yieldWords(weight), isDrawnByLot(trial)),
    ],
  ];
}

function chartsOf({ of, cheapest, dearer }: SupplementFacts): Answer["charts"] {
  return [
    levelsChart(of, of.decision),
    {
      kind: "intervals",
      title: `What a dearer ${inSentence(of.thing.factor.label)} leaves more`,
      description: dearer
        .map(({ cost, pays }) => `${cost.level} against ${cheapest.level}: ${pays.extra.value.toPrecision(2)} per tray`)
        .join("; "),
      unit: "money/tray",
      valueLabel: `left more per started tray than ${cheapest.level}`,
      rows: dearer.map(({ cost, pays: { extra } }) => ({ label: cost.level, ...extra })),
      reference: 0,
    },
  ];
}

/** The answer: the dearer level that leaves most, in the words of its verdict. */
export function dearerAnswer(trial: Trial, facts: SupplementFacts): Answer {
  const { of, basis, cheapest, dearer, products } = facts;
  const main = dearer.reduce((best, one) => (one.pays.extra.value > best.pays.extra.value ? one : best));
  const { verdict, p, settleable, caps } = main.judged;
  const weighed = { ...basis, verdict, p };
  const notes = decisionNotes(trial, { ...of, decision: weighed }, cameTogether(of.thing, thingsOf(trial), trial));
  const said = (word: Verdict) => ({
    sentence: sentenceOf(facts, main, word),
    ...dearerFront(main.pays.extra, main.cost.level, cheapest.level, word),
  });
  const tables: Table[] = [moneyTable(facts), levelsTable(of, of.decision)];
  return {
    kind: "answer",
    certainty: verdict === "cannot-tell" ? "open" : verdict,
    ...said(verdict),
    ...(verdict === "settled" ? { lowered: said("leaning") } : {}),
    ...(p === undefined ? {} : { test: { p, settleable, caps } }),
    estimates: estimatesOf(facts, main),
    tables,
    charts: chartsOf(facts),
    excluded: of.gathered.excluded,
    method: [
      ...notes.method,
      [
        `Money: the gain of a started tray times what a gram leaves (${products.join("; ")}), less what the supplement costs more by the lines of costs.csv that belong to it. It is tested whether the gain is more than that.`,
      ],
      [
        "Net price at which it stops paying: extra cost over the gain, Fieller's set for a ratio whose numerator is exact.",
      ],
    ],
    caveats: [
      ...besideYield(trial, facts),
      ...notes.caveats,
      [
        "Only yield and the price of the supplement are weighed: more picking on trays that would otherwise be lost, or days saved, are not.",
      ],
    ],
  };
}
