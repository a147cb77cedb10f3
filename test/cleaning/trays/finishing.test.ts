import { describe, expect, test } from "vitest";
import { finishTray } from "../../../src/cleaning/trays/finish-tray.ts";
import { placeUnnumbered } from "../../../src/cleaning/trays/place-unnumbered.ts";
import { settleOutcome } from "../../../src/cleaning/trays/settle-outcome.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import type { TrayEvidence } from "../../../src/cleaning/trays/tray-evidence.ts";
import type { TrayLog } from "../../../src/cleaning/trays/tray-log.ts";
import type { Flush, Outcome } from "../../../src/records/tray.ts";
import { draftOf, entriesOf, logOf } from "./drafts.ts";

const day = "2026-02-20";
const flush = (number: number, freshGrams?: number, dryGrams?: number, harvestedOn?: string): Flush => ({
  number,
  ...(freshGrams === undefined ? {} : { freshGrams }),
  ...(dryGrams === undefined ? {} : { dryGrams }),
  ...(harvestedOn === undefined ? {} : { harvestedOn }),
});
const finished = (facts: Partial<TrayDraft>, evidence?: TrayEvidence, own: Partial<TrayLog> = {}) => {
  const { log, said } = logOf({ hasOutcomes: () => false, ...own });
  const tray = finishTray(draftOf({ outcome: "good", ...facts }), log, evidence);
  return { tray, said: entriesOf(said), issues: said };
};

describe("flushes of a tray", () => {
  test("are added up, the first day is its harvest", () => {
    const { tray, said } = finished({ flushes: [flush(2, 50, 5, "2026-03-01"), flush(1, 200.1, 20, day)] });
    expect(tray).toMatchObject({ freshGrams: 250.1, dryGrams: 25, harvestedOn: day, bounds: {}, flags: [] });
    expect(tray.flushes?.map(({ number }) => number)).toEqual([1, 2]);
    expect(said).toEqual([]);
  });

  test("a single one that is the first is the tray's own picking; a second one stays a flush", () => {
    expect(finished({ flushes: [flush(1, 200, 20, day)] }).tray).toMatchObject({
      freshGrams: 200,
      dryGrams: 20,
      harvestedOn: day,
      flushes: [],
    });
    expect(finished({ flushes: [flush(0, 200)] }).tray).toMatchObject({ freshGrams: 200, flushes: [] });
    expect(finished({ flushes: [flush(2, 200)] }).tray).toMatchObject({ freshGrams: 200, flushes: [flush(2, 200)] });
  });

  test("one that has only a number is none; a later one alone is said to add nothing", () => {
    expect(finished({ flushes: [flush(1)] })).toMatchObject({ tray: { flushes: [] }, said: [] });
    expect(finished({ flushes: [flush(2)], outcome: undefined }).said[0]).toBe("2 flush flush-not-picked note 2 -> ");
    expect(finished({ flushes: [flush(1)], outcome: undefined }).said).not.toContain(
      "2 flush flush-not-picked note 1 -> ",
    );
    const twoRows = {
      file: undefined,
      row: undefined,
      sources: [
        { file: "a.csv", row: 2 },
        { file: "a.csv", row: 3 },
      ],
    };
    expect(finished({ flushes: [flush(2)], outcome: undefined, ...twoRows }).said).toEqual([]);
  });

  test("one without a weight leaves the total open below, which is flagged at the tray's last row", () => {
    const sources = [
      { file: "a.csv", row: 2 },
      { file: "a.csv", row: 5 },
    ];
    const { tray, said, issues } = finished({
      flushes: [flush(1, 200, 20), flush(2, 50)],
      file: undefined,
      row: undefined,
      sources,
    });
    expect(tray).toMatchObject({ freshGrams: 250, bounds: { dry_g: { low: 20 } }, flags: ["flush-without-weight"] });
    expect(tray.dryGrams).toBeUndefined();
    expect(said).toEqual(["5 dry_g flush-without-weight warning  -> >20"]);
    expect(issues[0]!.action).not.toBe("");
    // without any weight of a kind there is none to ask for
    expect(finished({ flushes: [flush(1, 200), flush(2, 50)] }).said).toEqual([]);
    expect(
      finished({ flushes: [flush(1, undefined, undefined, day), flush(2, undefined, undefined, "2026-03-01")] }),
    ).toMatchObject({ said: [], tray: { harvestedOn: day } });
  });

  test("one of which only limits are known comes on top of the others", () => {
    const of = (flushes: Flush[], dry_g: { low?: number; high?: number }) =>
      finished({ flushes, bounds: { dry_g, inoculum_ml: { low: 1 } } }).tray.bounds;
    const two = [flush(1, 200, 20), flush(2, 50)];
    expect(of(two, { low: 2, high: 5 })).toEqual({ dry_g: { low: 22, high: 25 }, inoculum_ml: { low: 1 } });
    expect(of(two, { low: 2 })).toEqual({ dry_g: { low: 22 }, inoculum_ml: { low: 1 } });
    expect(of(two, { high: 5 })).toEqual({ dry_g: { low: 20, high: 25 }, inoculum_ml: { low: 1 } });
    expect(of([...two, flush(3, 20)], { low: 2, high: 5 })).toEqual({ dry_g: { low: 22 }, inoculum_ml: { low: 1 } });
    expect(of([flush(1, 200, 20)], { low: 2, high: 5 })).toEqual({
      dry_g: { low: 22, high: 25 },
      inoculum_ml: { low: 1 },
    });
    expect(of([flush(1, 200, 20)], { high: 5 })).toEqual({ dry_g: { low: 20, high: 25 }, inoculum_ml: { low: 1 } });
  });
});

// weights without a number beside flushes that have one
test.each<[string, Flush[], Flush[], Pick<Flush, "freshGrams" | "dryGrams" | "harvestedOn">, string[]]>([
  ["all numbered", [flush(1, 200), flush(2, 50)], [flush(1, 200), flush(2, 50)], {}, []],
  ["none numbered", [flush(0, 200)], [flush(1, 200)], {}, []],
  ["the first is missing", [flush(0, 200), flush(2, 50)], [flush(1, 200), flush(2, 50)], {}, []],
  ["the first again", [flush(0, 200), flush(1, 200), flush(2, 50)], [flush(1, 200), flush(2, 50)], {}, []],
  [
    "the first again, in part",
    [flush(0, 200), flush(1, 200, 20), flush(2, 50)],
    [flush(1, 200, 20), flush(2, 50)],
    {},
    [],
  ],
  ["what one flush has not", [flush(0, undefined, 20, day), flush(2, 200)], [flush(2, 200, 20, day)], {}, []],
  ["the total", [flush(0, 250), flush(1, 200), flush(2, 50)], [flush(1, 200), flush(2, 50)], {}, []],
  ["the total, nearly", [flush(0, 252.5), flush(1, 200), flush(2, 50)], [flush(1, 200), flush(2, 50)], {}, []],
  ["a small total, nearly", [flush(0, 10.5), flush(1, 6), flush(2, 4)], [flush(1, 6), flush(2, 4)], {}, []],
  [
    "no total",
    [flush(0, 253), flush(1, 200), flush(2, 50)],
    [flush(1, 200), flush(2, 50)],
    {},
    ["2 fresh_g flush-total-disagrees warning 253 -> 250"],
  ],
  [
    "no small total",
    [flush(0, 10.6), flush(1, 6), flush(2, 4)],
    [flush(1, 6), flush(2, 4)],
    {},
    ["2 fresh_g flush-total-disagrees warning 10.6 -> 10"],
  ],
  [
    "no total, too little",
    [flush(0, 240), flush(1, 200), flush(2, 50)],
    [flush(1, 200), flush(2, 50)],
    {},
    ["2 fresh_g flush-total-disagrees warning 240 -> 250"],
  ],
  [
    "a total that flushes have in part",
    [flush(0, 300, 30), flush(1, 200, 20), flush(2, 100)],
    [flush(1, 200, 20), flush(2, 100)],
    { dryGrams: 30 },
    [],
  ],
  [
    "a dry total",
    [flush(0, undefined, 25), flush(1, 200), flush(2, 50)],
    [flush(1, 200), flush(2, 50)],
    { dryGrams: 25 },
    [],
  ],
  [
    "a day of all",
    [flush(0, undefined, undefined, day), flush(1, 200), flush(2, 50)],
    [flush(1, 200), flush(2, 50)],
    { harvestedOn: day },
    [],
  ],
  [
    "a day beside a total",
    [flush(0, 250, undefined, day), flush(1, 200), flush(2, 50)],
    [flush(1, 200), flush(2, 50)],
    { harvestedOn: day },
    [],
  ],
  [
    "a day where a flush has one",
    [flush(0, 250, undefined, day), flush(1, 200, undefined, "2026-02-01"), flush(2, 50)],
    [flush(1, 200, undefined, "2026-02-01"), flush(2, 50)],
    {},
    [],
  ],
])("a weight without a number is %s", (_, flushes, left, totals, entries) => {
  const { log, said } = logOf();
  const draft = draftOf({ flushes: flushes.map((one) => ({ ...one })) });
  expect(placeUnnumbered(draft, log)).toEqual(totals);
  expect(draft.flushes).toEqual(left);
  expect(entriesOf(said)).toEqual(entries);
  expect(draft.flags).toEqual(entries.length === 0 ? [] : ["flush-total-disagrees"]);
});

test("a total that was weighed counts, and needs no limits", () => {
  const { tray } = finished({
    flushes: [flush(0, undefined, 25), flush(1, 200), flush(2, 50)],
    bounds: { dry_g: { low: 3 }, fresh_g: { low: 1 } },
  });
  expect(tray).toMatchObject({ dryGrams: 25, bounds: { fresh_g: { low: 251 } } });
  expect(tray.bounds).not.toHaveProperty("dry_g");
  expect(
    finished({ flushes: [flush(0, undefined, undefined, day), flush(1, 200, 20), flush(2, 50)] }).tray.harvestedOn,
  ).toBe(day);
});

describe("a lost tray has no saleable weight", () => {
  const lost = (facts: Partial<TrayDraft>) => finished({ outcome: "contaminated", ...facts });
  test("and what was typed is in the log", () => {
    const { tray, said, issues } = lost({
      freshGrams: 120,
      dryGrams: 0,
      bounds: { fresh_g: { low: 1 }, dry_g: { low: 1 }, inoculum_ml: { low: 1 } },
    });
    expect([tray.freshGrams, tray.dryGrams, tray.bounds]).toEqual([undefined, undefined, { inoculum_ml: { low: 1 } }]);
    expect(said).toEqual(["2 fresh_g weight-of-lost-tray warning 120 -> ", "2 dry_g weight-of-lost-tray change 0 -> "]);
    expect(issues.map(({ expected, action }) => [expected === "", action === ""])).toEqual([
      [false, false],
      [true, true],
    ]);
    expect(tray.flags).toEqual(["weight-of-lost-tray"]);
    expect(lost({ freshGrams: 0 }).tray.flags).toEqual([]);
  });
  test.each(["fresh_g", "dry_g"])("nor limits of one: %s", (field) => {
    expect(lost({ freshGrams: 120, bounds: { [field]: { low: 1 } } }).tray.bounds).toEqual({});
  });
  test("of each of its flushes, whose days stay", () => {
    const { tray, said } = lost({ flushes: [flush(1, 200, 20, day), flush(2, 50)] });
    expect(tray.flushes).toEqual([{ number: 1, harvestedOn: day }]);
    expect(said.filter((entry) => entry.includes("fresh_g weight-of-lost-tray"))).toHaveLength(2);
    expect(said.filter((entry) => entry.includes("dry_g weight-of-lost-tray"))).toHaveLength(1);
  });
  test("save a failed one that was weighed at nothing", () => {
    const failed = (facts: Partial<TrayDraft>) => finished({ outcome: "failed", ...facts });
    expect(failed({ freshGrams: 0, dryGrams: 0 })).toMatchObject({ tray: { freshGrams: 0, dryGrams: 0 }, said: [] });
    expect(failed({ flushes: [flush(1, 0, undefined, day), flush(2, 0)] }).tray.freshGrams).toBe(0);
    expect(failed({ freshGrams: 0, dryGrams: 5 }).tray.freshGrams).toBeUndefined();
    expect(failed({ freshGrams: 5 }).tray.freshGrams).toBeUndefined();
    expect(failed({ flushes: [flush(1, 0), flush(2, 5)] }).tray.freshGrams).toBeUndefined();
    expect(failed({ flushes: [flush(1, undefined, 5), flush(2, 0)] }).tray.freshGrams).toBeUndefined();
    expect(lost({ freshGrams: 0, dryGrams: 0 }).tray.freshGrams).toBeUndefined();
  });
  test.each<[Outcome, boolean]>([
    ["contaminated", true],
    ["failed", true],
    ["discarded", true],
    ["good", false],
    ["growing", false],
    ["asked", false],
  ])("%s: %s", (outcome, isLost) => {
    expect(finished({ outcome, freshGrams: 120 }).tray.freshGrams).toBe(isLost ? undefined : 120);
  });
});

// what became of a tray that nobody typed, or not plainly: what a careful person says, common practice, no source
type Case = [
  what: string,
  facts: Partial<TrayDraft>,
  evidence: TrayEvidence,
  outcome: Outcome,
  rule: string | undefined,
  own?: Partial<TrayLog>,
];
const weight = { freshGrams: 200 };
const loss = { note: "mold" };
const cases: Case[] = [
  ["a weight", weight, {}, "good", "outcome-inferred"],
  ["a dry weight", { dryGrams: 20 }, {}, "good", "outcome-inferred"],
  ["limits of a weight", { bounds: { fresh_g: { low: 5 } } }, {}, "good", "outcome-inferred"],
  ["limits of a dry weight", { bounds: { dry_g: { low: 5 } } }, {}, "good", "outcome-inferred"],
  ["nothing weighed", { freshGrams: 0 }, {}, "failed", "outcome-inferred"],
  ["nothing weighed fresh, and something dry", { freshGrams: 0, dryGrams: 20 }, {}, "good", "outcome-inferred"],
  ["a day of harvest", { harvestedOn: day }, {}, "good", "outcome-inferred"],
  ["a day of drying", { driedOn: day }, {}, "good", "outcome-inferred"],
  ["a day of a flush", { flushes: [flush(1, undefined, undefined, day)] }, {}, "good", "outcome-inferred"],
  ["a day that cannot be read", {}, { dated: true }, "good", "outcome-inferred"],
  ["nothing", {}, {}, "growing", "outcome-inferred"],
  ["drying", {}, { says: "drying" }, "good", "outcome-inferred"],
  ["not lost", {}, { says: "not lost" }, "growing", "outcome-inferred"],
  ["put away", {}, { says: "spent" }, "discarded", "outcome-inferred"],
  ["put away, with a weight", weight, { says: "spent" }, "good", "outcome-inferred"],
  ["put away, with a day of harvest", { harvestedOn: day }, { says: "spent" }, "discarded", "outcome-inferred"],
  ["a loss in the note", loss, {}, "contaminated", "loss-from-note"],
  ["a loss in the note, with a day", { ...loss, harvestedOn: day }, {}, "contaminated", "loss-from-note"],
  ["a loss in the note, weighed at nothing", { ...loss, freshGrams: 0 }, {}, "contaminated", "loss-from-note"],
  ["a loss in the note beside a weight", { ...loss, ...weight }, {}, "good", "note-against-weight"],
  ["a loss in the note beside a weight that cannot be read", loss, { unread: true }, "asked", "weight-not-known"],
  ["thrown out by the note", { note: "fine at first, then binned" }, {}, "discarded", "loss-from-note"],
  ["a loss in the note with a doubt", { note: "mold?" }, {}, "asked", "note-unclear"],
  ["a loss in the note with a doubt, beside a weight", { note: "mold?", ...weight }, {}, "good", "outcome-inferred"],
  ["a loss in the note with a doubt, with a day", { note: "mold?", harvestedOn: day }, {}, "good", "outcome-inferred"],
  ["picked by the note", { note: "harvested" }, {}, "asked", "picked-in-note"],
  ["a note of other things", { note: "moved to shelf 2" }, {}, "growing", "outcome-inferred"],
  ["a weight that cannot be read", {}, { unread: true }, "asked", "weight-not-known"],
  ["a weight that cannot be read beside one that can", weight, { unread: true }, "good", "outcome-inferred"],
  [
    "a loss in another column",
    {},
    {},
    "asked",
    "loss-in-other-column",
    { lossBeside: () => ({ column: "Brand", text: "tossed" }) },
  ],
  [
    "a loss in another column, with a day",
    { harvestedOn: day },
    {},
    "asked",
    "loss-in-other-column",
    { lossBeside: () => ({ column: "Brand", text: "tossed" }) },
  ],
  [
    "a loss in another column beside a weight",
    weight,
    {},
    "good",
    "outcome-inferred",
    { lossBeside: () => ({ column: "Brand", text: "tossed" }) },
  ],
  ["a column not read yet", {}, {}, "asked", "ending-not-read", { unreadEnding: () => "Result" }],
  ["a column not read yet beside a weight", weight, {}, "good", "outcome-inferred", { unreadEnding: () => "Result" }],
  ["two columns of outcomes", weight, {}, "asked", "ending-not-read", { unreadOutcome: () => "Result" }],
  [
    "two columns of outcomes, and a typed one",
    { outcome: "good", ...weight },
    {},
    "good",
    undefined,
    { unreadOutcome: () => "Result" },
  ],
  ["good", { outcome: "good", ...weight }, {}, "good", undefined],
  ["good without a weight", { outcome: "good" }, {}, "good", undefined],
  ["good, weighed at nothing", { outcome: "good", freshGrams: 0 }, {}, "asked", "good-and-nothing"],
  ["good, a loss in the note", { outcome: "good", ...loss }, {}, "asked", "note-against-outcome"],
  ["good, a loss in the note, with a day", { outcome: "good", ...loss, harvestedOn: day }, {}, "good", undefined],
  [
    "good, a loss in the note, and a weight that cannot be read",
    { outcome: "good", ...loss },
    { unread: true },
    "good",
    undefined,
  ],
  ["good, a loss in the note with a doubt", { outcome: "good", note: "mold?" }, {}, "good", undefined],
  ["good, a note of other things", { outcome: "good", note: "moved" }, {}, "good", undefined],
  ["lost, with a doubt", { outcome: "contaminated" }, { queried: true }, "contaminated", undefined],
  [
    "lost, with a doubt, beside a weight",
    { outcome: "contaminated", ...weight },
    { queried: true },
    "asked",
    "doubted-loss-with-weight",
  ],
  [
    "lost, with a doubt, picked on a day nobody can read",
    { outcome: "contaminated" },
    { queried: true, dated: true },
    "asked",
    "doubted-loss-with-weight",
  ],
  [
    "lost, with a doubt, weighed at nothing",
    { outcome: "contaminated", freshGrams: 0 },
    { queried: true },
    "contaminated",
    undefined,
  ],
  ["lost without a doubt, beside a weight", { outcome: "contaminated", ...weight }, {}, "contaminated", undefined],
  ["good with a doubt, beside a weight", { outcome: "good", ...weight }, { queried: true }, "good", undefined],
  ["growing", { outcome: "growing" }, {}, "growing", undefined],
  [
    "growing, beside a weight that cannot be read",
    { outcome: "growing" },
    { unread: true },
    "asked",
    "growing-with-weight",
  ],
  ["good, beside a weight that cannot be read", { outcome: "good" }, { unread: true }, "good", undefined],
  ["weighed with another tray", { ...weight, note: "weighed with T4" }, {}, "asked", "weight-of-more"],
  [
    "good, weighed with another tray",
    { outcome: "good", ...weight, note: "weighed together with T4" },
    {},
    "asked",
    "weight-of-more",
  ],
  [
    "lost, weighed with another tray",
    { outcome: "failed", ...weight, note: "weighed with T4" },
    {},
    "failed",
    undefined,
  ],
  ["weighed in its tub", { ...weight, note: "incl. tub" }, {}, "asked", "weight-of-more"],
  ["weighed with its box", { ...weight, note: "with tub (35 g)" }, {}, "asked", "weight-of-more"],
  ["weighed with another tray, without a weight", { note: "weighed with T4" }, {}, "asked", "weighed-with-others"],
  ["not to be counted", { ...weight, note: "void" }, {}, "asked", "row-void"],
  ["good, not to be counted", { outcome: "good", ...weight, note: "void" }, {}, "good", undefined],
  ["not to be counted, without a weight", { note: "void" }, {}, "asked", "row-void"],
];
test.each(cases)("a tray with %s", (_, facts, evidence, outcome, rule, own = {}) => {
  const isRead = rule !== undefined && rule !== "outcome-inferred";
  // a loss that the note tells of is the usual way to write it; only beside a day of harvest is it a doubt
  const flagged = isRead && (rule !== "loss-from-note" || facts.harvestedOn !== undefined);
  for (const hasOutcomes of [true, false]) {
    const { log, said } = logOf({ hasOutcomes: () => hasOutcomes, ...own });
    const draft = draftOf({ ...facts });
    settleOutcome(draft, log, evidence);
    expect(draft.outcome).toBe(outcome);
    expect(draft.flags).toEqual(flagged ? [rule] : []);
    // that an outcome was concluded needs no word where the sheet has no column for it
    const isSaid = rule !== undefined && (isRead || hasOutcomes);
    expect(said.map((issue) => issue.rule)).toEqual(isSaid ? [rule] : []);
    if (!isSaid) continue;
    const raw = rule === "loss-in-other-column" ? "tossed" : isRead ? (facts.note ?? "") : "";
    expect(said[0]).toMatchObject({
      severity: flagged ? "warning" : "change",
      row: 2,
      column: "outcome",
      result: outcome,
      raw,
    });
    expect([said[0]!.expected === "", said[0]!.action === ""]).toEqual([!isRead, !isRead]);
    if (rule === "ending-not-read") expect(said[0]!.reason).toContain("“Result”");
    if (rule === "loss-in-other-column") expect(said[0]!.reason).toContain("“Brand”");
    if (outcome === "growing") expect(said[0]!.reason).toContain("still growing");
  }
});

test.each([
  "weighed with T4",
  "Combined with #4",
  "together with tray 4",
  "gewogen mit T4",
  "zusammen mit Schale 4",
  "pesé avec 4",
  "ensemble avec 4",
  "junto con 4",
  "insieme con 4",
  "samen met 4",
  "razem z 4",
  "incl. tub",
  "inkl. Schale",
  "gross, with bag",
  "brutto mit Beutel",
  "weighed incl. bag",
  "with bag 12 g",
  "w/ bag (12g)",
])("“%s” says that more was weighed", (note) => {
  const { log } = logOf();
  const draft = draftOf({ ...weight, note });
  settleOutcome(draft, log);
  expect(draft.outcome).toBe("asked");
});

test.each([
  "weighed with care",
  "mixed with T4",
  "with 12 g",
  "inclined tub",
  "grew together",
  "handled with gloves",
  "dried with fan 2",
])("“%s” says nothing of the weight", (note) => {
  const { log } = logOf();
  const draft = draftOf({ ...weight, note });
  settleOutcome(draft, log);
  expect(draft.outcome).toBe("good");
});

test.each([
  "void",
  "VOIDED",
  "ignore this",
  "please ignore row",
  "disregard",
  "do not count",
  "don't use",
  "not valid",
  "ungültig",
  "nicht werten",
  "ne pas compter",
  "anulado",
  "no contar",
  "non contare",
  "ongeldig",
  "nieważny",
  "nie liczyć",
  "inválida",
])("“%s” says that the row is not to be counted", (note) => {
  const { log, said } = logOf();
  settleOutcome(draftOf({ ...weight, note }), log);
  expect(said[0]!.rule).toBe("row-void");
});

test.each(["avoid shelf 2", "voids in the block", "ignored smell", "validated", "no contaminada"])(
  "“%s” does not",
  (note) => {
    const { log, said } = logOf();
    settleOutcome(draftOf({ ...weight, note }), log);
    expect(said[0]!.rule).not.toBe("row-void");
  },
);

test("an outcome is said of at a row whose sheet has a column for it", () => {
  const { log, said } = logOf({ hasOutcomes: (file) => file === "b.csv" });
  const sources = [
    { file: "a.csv", row: 2 },
    { file: "b.csv", row: 7 },
  ];
  settleOutcome(draftOf({ ...weight, file: undefined, row: undefined, sources }), log);
  expect(said).toMatchObject([{ file: "b.csv", row: 7 }]);
});

test("a plain outcome is not weighed again, a note beside it is", () => {
  expect(finished({ ...weight }).said).toEqual([]);
  expect(finished({ ...weight, note: "weighed with T4" }).tray.outcome).toBe("asked");
  expect(finished({ freshGrams: 0 }).tray.outcome).toBe("asked");
  expect(finished({ dryGrams: 0 }).tray.outcome).toBe("asked");
  expect(finished({ outcome: "failed", freshGrams: 9000 }).tray.flags).toEqual(["weight-of-lost-tray"]);
  expect(finished({ outcome: "failed", freshGrams: 9000 }, { queried: true }).tray).toMatchObject({
    outcome: "asked",
    flags: ["weight-out-of-reach", "doubted-loss-with-weight"],
  });
  // a weight that cannot be shows that the tray was picked
  expect(finished({ outcome: undefined, freshGrams: 9000 }).tray).toMatchObject({
    outcome: "good",
    flags: ["weight-out-of-reach"],
  });
});
