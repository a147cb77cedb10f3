import type { Analysis, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { dayWords } from "../../src/planning/day-words.ts";
import { trayNamed } from "../../src/records/tray.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { lastDateOf } from "../comparison/tray-days.ts";
import { dueCounts, dueFront, readyAnyDay } from "./due-front.ts";
import { stepWords, windowWords } from "./due-lines.ts";
import { dueTables } from "./due-tables.ts";
import { type DueTrays, dueCount, dueTrays } from "./due-trays.ts";
import { type KeepOrBin, keepOrBin, keepOrBinSays } from "./keep-or-bin.ts";

/** pieces of advice on late trays */
const mostAdvice = 3;

const nothing = noAnswer(
  ["Nothing is due: no tray is growing."],
  ["Write a row for every tray when it is started, with the date of inoculation."],
  { missing: { kind: "record", need: "a row and a date for each tray when it is started" } },
);

function sentenceOf(due: DueTrays): Sentence {
  const { late, week } = dueCounts(due);
  const { trays, day } = due;
  const [growing, lateCount, weekCount] = [dueCount(trays), dueCount(late), dueCount(week)];
  const harvests = trays
    .flatMap(({ next, harvest }) => (next.step === "harvest" ? next : (harvest ?? [])))
    .filter(({ high }) => high >= day.on)
    .sort((a, b) => (a.likely ?? a.low) - (b.likely ?? b.low));
  const [first] = harvests;
  const ready = dueCount(readyAnyDay(due));
  return [
    `On ${dayWords(dateOfDay(day.on))} ${growing === 1 ? "one tray is" : `${growing} trays are`} growing: ${lateCount || "none"} late`,
    ...(ready > 0 && week.length === 0 ? [] : [`, ${weekCount || "none"} due within seven days`]),
    ...(ready > 0
      ? [`; ${ready} may be ready to harvest any day, as too few harvests show how long they take.`]
      : first === undefined
        ? ["."]
        : [
            `; the next ${stepWords.harvest} is expected ${windowWords(first)}${first.basis.kind === "usual" ? " (usual range)" : " (8 of 10)"}.`,
          ]),
  ];
}

function caveatsOf(due: DueTrays, advice: ReadonlyArray<KeepOrBin>): Sentence[] {
  const usual = dueCount(due.trays.filter(({ next }) => next.basis.kind === "usual"));
  return [
    ...keepOrBinSays(advice, mostAdvice),
    ...(advice.length === 0
      ? []
      : [
          [
            "Keep or bin: the expected money of the next picking, less what its days and grams cost, against what new trays leave in as many days of the place while the shelves are full; only where one is twice the other; a late tray is never said to be worth keeping. A contaminated tray is taken out whatever it is worth.",
          ],
        ]),
    ...(usual > 0
      ? [
          [
            `${usual} of ${dueCount(due.trays)} growing trays are dated by the usual range in the settings (common practice, no source): fewer than three trays of this book have got so far.`,
          ],
        ]
      : []),
    ...(due.undated.length > 0
      ? [
          [
            `${due.undated.length} growing trays have no date to count from: ${trayNamed(due.undated[0]!.trayId)} for one.`,
          ],
        ]
      : []),
    ["A window is for a tray that gets there; the chance that it is lost is given beside it."],
  ];
}

function run(trial: Trial): Outcome {
  const { trays, settings } = trial;
  const on = settings.reportDate === "" ? lastDateOf(trays) : settings.reportDate;
  if (on === undefined) return nothing;
  const due = dueTrays(trays, settings, on);
  if (due.trays.length === 0) return nothing;
  const advice = keepOrBin(trial, due);
  return {
    kind: "answer",
    certainty: "measured",
    sentence: sentenceOf(due),
    ...dueFront(due),
    estimates: [],
    tables: dueTables(due, advice),
    charts: [],
    excluded:
      due.undated.length === 0
        ? []
        : [{ trays: due.undated.map(({ trayId }) => trayId), reason: "growing, with no date to count from" }],
    method: [
      [
        "Days of trays of the same strain, dose and temperature where they tell as much as nine trays of nine cooks, else of the strain, else of the book; growing trays count as still waiting (product-limit estimate; Weibull law where trays are few or days known only within bounds).",
      ],
      [
        "The first and last day leave a tenth of such trays on either side, widened for few trays and cooks as a t prediction interval is; a tray is late after 19 of 20 are there.",
      ],
    ],
    caveats: caveatsOf(due, advice),
  };
}

/** What is due of the growing trays. */
export const whatIsDue: Analysis = {
  id: "what-is-due",
  name: "What is due",
  question: "What is due of the growing trays, and when?",
  needs: ["tray_id", "inoculated_on"],
  assumes: ["trays to come take as long as trays like them took"],
  topic: "growing",
  headline: true,
  run,
};
