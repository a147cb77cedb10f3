import type { Analysis, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import type { Issue } from "../../src/records/issue.ts";
import { sourcesOf, type Tray } from "../../src/records/tray.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type BookFact, factChanged } from "./book-facts.ts";
import { type Doubts, doubtfulCount, doubtsOf } from "./row-doubts.ts";
import { rowsFront } from "./rows-front.ts";

const mostRows = 200;

const placeOf = (tray: Tray): string =>
  sourcesOf(tray)
    .map(({ file, row }) => `${file} row ${row}`)
    .join(", ");

/** Doubtful cells by the rule that flagged them, with the reason in words. */
function ruleTable(flagged: ReadonlyArray<Tray>, issues: ReadonlyArray<Issue>): Table {
  const byRule = new Map<string, { trays: Tray[]; reason: string; action: string }>();
  const reasons = new Map<string, Issue>();
  for (const issue of issues) if (!reasons.has(issue.rule)) reasons.set(issue.rule, issue);
  for (const tray of flagged) {
    for (const rule of new Set(tray.flags)) {
      const issue = reasons.get(rule);
      const entry = byRule.get(rule) ?? { trays: [], reason: issue?.reason ?? rule, action: issue?.action ?? "" };
      byRule.set(rule, entry);
      entry.trays.push(tray);
    }
  }
  const rules = [...byRule.values()].sort((a, b) => b.trays.length - a.trays.length);
  return {
    caption: "Doubtful rows, by what is wrong with them",
    columns: [
      { label: "What is doubtful" },
      { label: "trays", unit: "trays" },
      { label: "which" },
      { label: "what to do" },
    ],
    rows: rules.map(({ trays, reason, action }) => [
      reason,
      startedCount(trays),
      `${trays
        .slice(0, 8)
        .map((tray) => `${tray.trayId} (${placeOf(tray)})`)
        .join("; ")}${trays.length > 8 ? ` and ${trays.length - 8} more` : ""}`,
      action === "" ? null : action,
    ]),
  };
}

/** Every doubtful tray with its rows. */
function rowTable(doubtful: Doubts["doubtful"]): Table {
  return {
    caption: "Rows to re-read first",
    columns: [{ label: "Tray" }, { label: "where" }, { label: "why" }],
    rows: doubtful.slice(0, mostRows).map(({ tray, issues }) => {
      const why = issues.length === 0 ? tray.flags : issues.map(({ reason }) => reason);
      return [tray.trayId, placeOf(tray), [...new Set(why)].join("; ")];
    }),
    ...(doubtful.length > mostRows ? { note: `${mostRows} of ${doubtful.length} are listed.` } : {}),
  };
}

function factTable(all: BookFact[], without: BookFact[]): Table {
  const others = all.map((fact) => without.find(({ label }) => label === fact.label));
  return {
    caption: "Figures with every tray, and without the doubtful ones",
    columns: [{ label: "" }, ...all.map(({ label, unit }) => ({ label, unit }))],
    rows: [
      ["with every tray", ...all.map(({ value }) => value)],
      ["from", ...all.map(({ low }) => low)],
      ["to", ...all.map(({ high }) => high)],
      ["without the doubtful ones", ...others.map((other) => other?.value ?? null)],
      ["from", ...others.map((other) => other?.low ?? null)],
      ["to", ...others.map((other) => other?.high ?? null)],
      [
        "changes",
        ...all.map((fact, index) =>
          others[index] === undefined ? "cannot be worked out" : factChanged(fact, others[index]) ? "yes" : "no",
        ),
      ],
    ],
    note: "A figure changes when it leaves its own range, or when a difference starts or stops being clear.",
  };
}

const labelsOf = (facts: ReadonlyArray<BookFact>): string => facts.map(({ label }) => label).join("; ");

function rowsSentence({ trays }: Trial, doubts: Doubts): Sentence {
  const { doubtful, all, moved, wide } = doubts;
  const [count, of] = [doubtfulCount(doubts), startedCount(trays)];
  if (doubtful.length === 0 && wide !== undefined) {
    return [`One doubt is the same in ${wide.trays} of ${of} trays: ${wide.reason}. No tray stands out.`];
  }
  if (doubtful.length === 0) {
    return [`No row of ${of} trays is doubtful.`];
  }
  const named = doubtful.slice(0, 3).map(({ tray }) => `${tray.trayId} (${placeOf(tray)})`);
  const effect =
    all.length === 0
      ? "nothing can be compared, as the book has no yield or loss to work out"
      : moved.length === 0
        ? `the main figures do not change (${labelsOf(all)})`
        : `these figures change: ${labelsOf(moved)}`;
  return [
    `${count} of ${of} trays ${count === 1 ? "has" : "have"} rows to re-read, such as ${named.join(", ")}; without them ${effect}.`,
  ];
}

function factEstimates({ without, doubtful }: Doubts, level: number): Estimate[] {
  const methodOf = ({ unit, label }: BookFact): string => {
    if (unit === "share") return "as in the question about losses";
    return label.startsWith("mean") ? "t interval, trays taken one by one" : "as in the question about the yield";
  };
  return without.map((fact) => ({
    label: doubtful.length === 0 ? fact.label : `${fact.label}, without doubtful trays`,
    ...{ value: fact.value, low: fact.low, high: fact.high, level, unit: fact.unit, n: fact.n, nUnit: "trays" },
    method: methodOf(fact),
  }));
}

function rowsTables({ issues, trays }: Trial, { doubtful, all, without }: Doubts): Table[] {
  if (doubtful.length === 0) return [];
  return [
    ...(all.length === 0 ? [] : [factTable(all, without)]),
    ruleTable(
      trays.filter(({ flags }) => flags.length > 0),
      issues,
    ),
    rowTable(doubtful),
  ];
}

function run(trial: Trial): Outcome {
  const { trays, settings } = trial;
  if (trays.length === 0) {
    return noAnswer(
      ["Cannot tell which rows can be trusted: no tray could be read."],
      ["See the log for the rows that were left out and why."],
    );
  }
  const doubts = doubtsOf(trial);
  const names = doubts.doubtful.map(({ tray }) => tray.trayId);
  return {
    kind: "answer",
    sentence: rowsSentence(trial, doubts),
    certainty: "measured",
    ...rowsFront(doubts, startedCount(trays)),
    estimates: factEstimates(doubts, settings.intervalLevel),
    tables: rowsTables(trial, doubts),
    charts: [],
    excluded:
      names.length === 0
        ? []
        : [
            {
              trays: names,
              reason: "flagged: left out of the second set of figures",
            },
          ],
    method: [
      [
        `Flagged: a cell of the tray broke a rule of the log; a weight or a time by lying more than ${settings.outlierZ} robust standard deviations from what the medians of its dose and cook add up to.`,
      ],
    ],
    caveats: names.length === 0 ? [] : [["Far is not wrong: look whether the cell was typed as it was read."]],
  };
}

/** Which rows are doubtful, and whether the main figures depend on them. */
export const whichRowsCannotBeTrusted: Analysis = {
  id: "which-rows-cannot-be-trusted",
  name: "Rows to check",
  question: "Which rows cannot be trusted, and do the answers change without them?",
  needs: ["tray_id"],
  assumes: ["most rows are right"],
  topic: "growing",
  headline: false,
  run,
};
