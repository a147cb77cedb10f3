import type { Analysis, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { inRow, inSentence, levelLabel } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { cameTogether } from "./came-together.ts";
import { type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import { endsOf } from "./verdict-words.ts";
import { yieldDecision, yieldWords } from "./what-changed-the-yield.ts";

/** More things than this are looked at by nobody; those that lie best over the cooks come first. */
const mostThings = 12;

const placeWords: Readonly<Record<VariedThing["place"], string>> = {
  "inside cooks": "within cooks",
  "one cook": "in one cook",
  "whole cooks": "from cook to cook",
};

interface Looked {
  of: TreatmentDecision;
  ties: string[];
}

/** Whether yield goes with it, and not with something that always came together with it. */
const standsOut = ({ of, ties }: Looked): boolean =>
  ties.length === 0 && (of.decision.verdict === "settled" || of.decision.verdict === "leaning");

function thingsTable(looked: ReadonlyArray<Looked>): Table {
  return {
    caption: "What else varied, and the yield of good trays",
    columns: [
      { label: "varied" },
      { label: "how" },
      { label: "better" },
      { label: "by", unit: looked[0]!.of.response.unit },
      { label: "how sure" },
      { label: "came together with" },
    ],
    rows: looked.map(({ of: { thing, decision }, ties }) => {
      const words = yieldWords("dry");
      const difference = decision.difference;
      const ends = difference === undefined ? undefined : endsOf(difference, words);
      return [
        thing.factor.label,
        placeWords[thing.place],
        ends === undefined ? "" : levelLabel(thing.factor, String(ends.to)),
        difference === undefined ? null : Math.abs(difference.estimate),
        decision.verdict === "cannot-tell"
          ? "cannot tell"
          : decision.verdict === "settled"
            ? "leaning"
            : decision.verdict,
        ties.join(", "),
      ];
    }),
    note: "Seasons and years hold whatever else changed with time: they show that periods differ, not why.",
  };
}

const namesOf = (some: ReadonlyArray<Looked>): string[] => some.map(({ of }) => inSentence(of.thing.factor.label));

/** "My_lamp came together with inoculum: the two cannot be separated." */
const tiedSentence = ({ of, ties }: Looked): string =>
  `${of.thing.factor.label} came together with ${inRow(ties)}, so it cannot be separated from ${ties.length === 1 ? "it" : "them"}.`;

function sentenceOf(looked: ReadonlyArray<Looked>): Sentence {
  const clear = looked.filter(standsOut);
  const tied = looked.filter(({ ties }) => ties.length > 0);
  const apart = looked.filter(({ ties }) => ties.length === 0);
  const quiet = apart.filter((one) => !standsOut(one));
  const none = clear.length === 0;
  const said = [
    none ? "" : `Yield may also go with ${inRow(namesOf(clear))}.`,
    quiet.length === 0
      ? ""
      : none
        ? `Nothing else that varied is seen to go with the yield: ${inRow(namesOf(quiet))}.`
        : `No sign of it for ${inRow(namesOf(quiet))}.`,
    ...tied.map(tiedSentence),
  ];
  return [said.filter((one) => one !== "").join(" ")];
}

function run(trial: Trial): Outcome {
  const [main, ...others] = thingsOf(trial);
  const looked = others.slice(0, mostThings).flatMap((thing): Looked[] => {
    const of = yieldDecision(trial, thing);
    return of === undefined
      ? []
      : [{ of, ties: cameTogether(thing, main === undefined ? others : [main, ...others], trial) }];
  });
  if (looked.length === 0) {
    return noAnswer(
      ["Cannot tell what else mattered: nothing else varied, or no good tray has a weight."],
      ["Write down what differed between trays: strain, supplement, temperature, whatever you changed."],
      { missing: { kind: "vary", need: "something else written down that differed between trays" } },
    );
  }
  const leads = looked.filter(standsOut);
  return {
    kind: "answer",
    // each line has a word of its own; the whole is a list to look through, and settles nothing
    certainty: leads.length > 0 ? "leaning" : "open",
    sentence: sentenceOf(looked),
    short:
      leads.length > 0
        ? [`Yield may also go with ${inSentence(leads[0]!.of.thing.factor.label)}.`]
        : looked.every(({ ties }) => ties.length > 0)
          ? ["Nothing else can be separated from what was tried."]
          : ["Nothing else stands out."],
    figure: { label: "other things go with the yield", value: leads.length, of: looked.length, unit: "things" },
    strip: {
      kind: "measures",
      measures: looked.map((one) => ({ name: inSentence(one.of.thing.factor.label), moved: standsOut(one) })),
    },
    estimates: [],
    tables: [thingsTable(looked)],
    charts: [],
    excluded: [],
    method: [["Each is compared as the main question is, on its own; none of them is settled by this list."]],
    caveats: [],
  };
}

/** Everything else that varied, each with its word, and what it cannot be separated from. */
export const whatElseWasVaried: Analysis = {
  id: "what-else-was-varied",
  name: "What else varied",
  question: "What else varied, and does the yield go with it?",
  needs: ["tray_id"],
  experimentalUnit: "tray",
  assumes: ["columns set before the harvest were typed before it"],
  topic: "growing",
  headline: false,
  run,
};
