import type { Answer, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { inRow, inSentence } from "../comparison/level-text.ts";
import { yieldPerStartedTray } from "../comparison/tray-response.ts";
import { earningResponses } from "../costs/earning-responses.ts";
import { treatmentAnswer } from "../treatment/treatment-answer.ts";
import { decideTreatment, type TreatmentDecision } from "../treatment/treatment-decision.ts";
import { besideLevel, endsOf, isUnsteady, levelOf, type ResponseWords } from "../treatment/verdict-words.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";

const perStarted = (did: string, does: string): ResponseWords => ({
  of: "a started tray",
  more: "more",
  less: "less",
  did,
  does,
  better: "higher",
});

const none: ReadonlyArray<object> = [];

/** A supplement that no cost line tells from the others: what it costs is not known, and money would leave that out. */
const isUncosted = ({ factor }: VariedThing): boolean => factor.key.startsWith("supplement");

/** What a started tray earned of each level, lost ones with their cost; its yield where the book has no prices of it. */
function decide(trial: Trial, thing: VariedThing): { of: TreatmentDecision; words: ResponseWords } | undefined {
  const { costLines = none, products = none, unread = none } = trial;
  const [earned] = isUncosted(thing) ? [] : earningResponses(trial);
  if (earned === undefined) return decideYield(trial, thing);
  const { response, suppositions } = earned;
  const of = decideTreatment(trial, thing, {
    response,
    better: "higher",
    withLost: false,
    suppositions,
    from: [costLines, products, unread],
  });
  return of === undefined ? undefined : { of, words: perStarted("earned", "earns") };
}

/** What a started tray gave, as the question about the yield has it. */
function decideYield(trial: Trial, thing: VariedThing): { of: TreatmentDecision; words: ResponseWords } | undefined {
  const of = yieldDecision(trial, thing);
  const weight = yieldWeightOf(trial);
  const decision = of?.started();
  if (of === undefined || weight === undefined || decision === undefined) return undefined;
  return {
    of: {
      ...of,
      response: yieldPerStartedTray(weight),
      decision,
      isMain: false,
      readings: [],
      settledBefore: false,
      started: () => undefined,
    },
    words: perStarted("gave", "gives"),
  };
}

/** "Lost: Amber 5 of 18, Birch 1 of 18."; fewest first, at most six. */
function lossesSentence({ factor }: VariedThing, compared: TreatmentDecision): Sentence[] {
  const counts = new Map<string, { lost: number; of: number }>();
  for (const { row } of compared.gathered.trays) {
    const tray = compared.gathered.byRow[row]!;
    const level = factor.level(tray)!;
    const own = counts.get(level) ?? { lost: 0, of: 0 };
    counts.set(level, own);
    own.of += tray.traysInPool;
    if (tray.outcome !== "good") own.lost += tray.traysInPool;
  }
  const sorted = [...counts].sort(([, a], [, b]) => a.lost / a.of - b.lost / b.of);
  if (sorted.every(([, { lost }]) => lost === 0)) return [[`No tray of any ${inSentence(factor.label)} was lost.`]];
  const shown = sorted.slice(0, 6).map(([level, { lost, of }]) => `${level} ${lost} of ${of}`);
  return [[`Lost, fewest first: ${inRow(shown)}${sorted.length > 6 ? "; the others more" : ""}.`]];
}

/** What to use: for good where it is settled, else meanwhile; nothing where none leads, as a tray or two lost decide that. */
function nextOf({ decision, thing }: TreatmentDecision, words: ResponseWords, certainty: Answer["certainty"]) {
  const { difference, verdict } = decision;
  if (difference === undefined || (verdict !== "settled" && verdict !== "leaning") || isUnsteady(decision)) return [];
  const act: Sentence = [levelOf(thing.factor, endsOf(difference, words).to), "."];
  const settled = certainty === "settled";
  return [
    {
      rank: "dose" as const,
      act: [settled ? "Use " : "Meanwhile use ", ...act],
      because: [
        isUncosted(thing)
          ? `It ${words.did} more a started tray${settled ? "" : " so far"}; its cost is not counted.`
          : `A started tray of it ${words.did} more${settled ? ", cook by cook" : " so far"}.`,
      ],
    },
  ];
}

/** "Which strain earns most is not known yet: Amber against the others." */
function notKnownYet({ decision, thing: { factor } }: TreatmentDecision, words: ResponseWords): Sentence {
  const what = `Which ${inSentence(factor.label)} ${words.does === "earns" ? "earns" : "yields"} most is not known yet`;
  if (decision.difference === undefined) return [`${what}.`];
  const { to, from } = endsOf(decision.difference, words);
  return [
    `${what}: `,
    levelOf(factor, to),
    " against ",
    from === undefined ? "the others" : besideLevel(factor, from),
    ".",
  ];
}

/**
 * Which of several names to use (strains, containers, lamps): what a started tray of each earned, its losses and costs in it.
 * @returns undefined where nothing can be compared
 */
export function namesAnswer(trial: Trial, thing: VariedThing): Outcome | undefined {
  const decided = decide(trial, thing);
  if (decided === undefined) return undefined;
  const { of, words } = decided;
  const what = inSentence(thing.factor.label);
  const outcome = treatmentAnswer(trial, of, words, words.did === "earned" ? "profit" : "yield of started trays");
  const asked = { question: `Which ${what} should I use?`, name: `Which ${what} to use` };
  if (outcome.kind === "cannot-tell") return { ...outcome, asked };
  const { lowered } = outcome;
  return {
    ...outcome,
    asked,
    ...(outcome.certainty === "open" ? { short: notKnownYet(of, words) } : {}),
    next: nextOf(of, words, outcome.certainty),
    ...(lowered === undefined ? {} : { lowered: { ...lowered, next: nextOf(of, words, "leaning") } }),
    caveats: [
      ...lossesSentence(thing, of),
      ...(isUncosted(thing) ? [[`Money is not in it: no cost line tells what each ${what} costs.`]] : []),
      ...outcome.caveats,
    ],
  };
}
