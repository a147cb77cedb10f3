import { describe, expect, test } from "vitest";
import { mergeDrafts } from "../../../src/cleaning/trays/merge-drafts.ts";
import { mergeFlushes, narrower } from "../../../src/cleaning/trays/merge-flushes.ts";
import { mergeOutcomes } from "../../../src/cleaning/trays/merge-outcomes.ts";
import { rowOutcome, worstOf } from "../../../src/cleaning/trays/row-outcome.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import { jointEvidence, type TrayEvidence } from "../../../src/cleaning/trays/tray-evidence.ts";
import type { TraySaid } from "../../../src/cleaning/values/outcome-words.ts";
import type { Bounds, Flush, Outcome } from "../../../src/records/tray.ts";
import { draftOf, entriesOf, logOf } from "./drafts.ts";

const merged = (...facts: Partial<TrayDraft>[]) => {
  const rows = facts.map((one, at) => draftOf({ row: at + 2, ...one }));
  const both = [rows, [...rows].reverse()].map((drafts) => {
    const { log, said } = logOf();
    const evidence = new Map<TrayDraft, TrayEvidence>();
    const tray = mergeDrafts(
      drafts.map((row) => ({ ...row, flushes: row.flushes.map((flush) => ({ ...flush })) })),
      log,
      evidence,
    );
    return { tray, said: entriesOf(said), issues: said, evidence: evidence.get(tray) };
  });
  // the order of the rows does not matter
  expect(both[1]).toEqual(both[0]);
  return both[0]!;
};
const flush = (number: number, freshGrams?: number, dryGrams?: number, harvestedOn?: string): Flush => ({
  number,
  ...(freshGrams === undefined ? {} : { freshGrams }),
  ...(dryGrams === undefined ? {} : { dryGrams }),
  ...(harvestedOn === undefined ? {} : { harvestedOn }),
});
const joined = (row: number) => `${row} * rows-joined note`;

describe("the rows of one tray", () => {
  test("complete each other, and the log says that they are one tray", () => {
    const { tray, said, evidence } = merged(
      { strain: "Blue", inoculumMillilitres: 5, flags: ["b"] },
      { jar: "J1", inoculumMillilitres: 5, factors: { lid: "red" }, flags: ["a", "b"] },
    );
    expect(tray).toEqual({
      trayId: "T1",
      outcome: undefined,
      traysInPool: 1,
      flushes: [],
      factors: { lid: "red" },
      bounds: {},
      sources: [
        { file: "a.csv", row: 2 },
        { file: "a.csv", row: 3 },
      ],
      flags: ["a", "b"],
      strain: "Blue",
      jar: "J1",
      inoculumMillilitres: 5,
    });
    expect([said, evidence]).toEqual([[joined(3)], undefined]);
  });

  test("that say exactly the same are a repetition", () => {
    expect(merged({ strain: "Blue" }, { strain: "Blue" }).said).toEqual(["3 * repeated-row note"]);
    expect(merged({ strain: "Blue" }, { strain: "Blue" }, { jar: "J1" }).said).toEqual([
      "3 * repeated-row note",
      joined(4),
    ]);
    expect(merged({ strain: "Blue", shelf: undefined as never }, { strain: "Blue" }).said).toEqual([
      "3 * repeated-row note",
    ]);
  });

  test("of a flush each are no repetition", () => {
    expect(merged({ flushes: [flush(1, 200)] }, { flushes: [flush(2, 100)] }).said).toEqual([]);
    expect(merged({ flushes: [flush(1, 200)] }, { flushes: [flush(1, 200)] }).said).toEqual(["3 * repeated-row note"]);
  });

  test("agree on the spelling that comes first in the alphabet", () => {
    const { tray, said } = merged({ strain: "blue oyster" }, { strain: "Blue  oyster" });
    expect([tray.strain, said]).toEqual(["Blue  oyster", [joined(3)]]);
  });

  test.each<[string, Partial<TrayDraft>, Partial<TrayDraft>, keyof TrayDraft, string[]]>([
    [
      "strains",
      { strain: "Blue" },
      { strain: "Grey" },
      "strain",
      ["strain conflict warning Blue -> ", "strain conflict warning Grey -> "],
    ],
    [
      "doses",
      { inoculumMillilitres: 5 },
      { inoculumMillilitres: 6 },
      "inoculumMillilitres",
      ["inoculum_ml conflict warning 5 -> ", "inoculum_ml conflict warning 6 -> "],
    ],
    [
      "shares, shown as percentages",
      { spawnShare: 0.05 },
      { spawnShare: 0.1 },
      "spawnShare",
      ["spawn_pct conflict warning 5 -> ", "spawn_pct conflict warning 10 -> "],
    ],
  ])("that differ in %s state none", (_, one, two, property, said) => {
    const found = merged(one, two);
    expect(found.tray[property]).toBeUndefined();
    expect(found.tray.flags).toEqual(["conflict"]);
    expect(found.said).toEqual(said.map((entry, at) => `${at + 2} ${entry}`));
    expect(found.issues[0]!.reason).toMatch(/^rows say different/);
    expect(merged(one, { ...two, file: "b.csv" }).issues[0]!.reason).toMatch(/^sheets say different/);
  });

  test("that differ in a free fact say so under its own header", () => {
    const { tray, said } = merged({ factors: { lid: "red", bag: "x" } }, { factors: { lid: "blue" } });
    expect(tray.factors).toEqual({ bag: "x" });
    expect(said).toEqual(["2 lid conflict warning red -> ", "3 lid conflict warning blue -> "]);
  });

  test("keep each remark once", () => {
    expect(merged({ note: "b" }, { note: "a" }, { note: "b" }).tray.note).toBe("a | b");
    expect(merged({ note: "b" }, {}).tray.note).toBe("b");
    expect(merged({}, {}).tray).not.toHaveProperty("note");
  });

  test("that count the trays of a pool differently keep the larger count, and are asked about", () => {
    expect(merged({ traysInPool: 3 }, {}).tray.traysInPool).toBe(3);
    expect(merged({ traysInPool: 3 }, { traysInPool: 3 }).said).toEqual(["3 * repeated-row note"]);
    const found = merged({ traysInPool: 3 }, { traysInPool: 4 });
    expect([found.tray.traysInPool, found.said]).toEqual([
      4,
      ["2 trays_in_pool conflict warning 3 -> ", "3 trays_in_pool conflict warning 4 -> "],
    ]);
  });

  test("that give one picking two weights use neither, and it is known that there was one", () => {
    const { tray, said, evidence } = merged({ flushes: [flush(1, 200, 20)] }, { flushes: [flush(1, 210, 20)] });
    expect(tray.flushes).toEqual([flush(1, undefined, 20)]);
    expect(said).toEqual(["2 fresh_g conflict warning 200 -> ", "3 fresh_g conflict warning 210 -> "]);
    expect(evidence).toEqual({ unread: true });
    // of two days that is not so
    const days = merged({ flushes: [flush(1, 200, 20, "2026-02-01")] }, { flushes: [flush(1, 200, 20, "2026-02-02")] });
    expect([days.evidence, days.tray.flushes]).toEqual([undefined, [flush(1, 200, 20)]]);
    expect(days.said).toEqual([
      "2 harvested_on conflict warning 2026-02-01 -> ",
      "3 harvested_on conflict warning 2026-02-02 -> ",
    ]);
  });

  test("with a number of a flush and nothing else of it", () => {
    const { tray, said } = merged({ flushes: [flush(1, 200)] }, { flushes: [flush(2)] });
    expect(tray.flushes).toEqual([flush(1, 200), flush(2)]);
    expect(said).toEqual(["3 flush flush-not-picked note 2 -> "]);
    const quiet = (more: Partial<TrayDraft>) =>
      expect(merged({ flushes: [flush(1, 200)] }, { flushes: [flush(2)], ...more }).said.join()).not.toContain(
        "flush-not-picked",
      );
    quiet({ outcome: "contaminated" });
    quiet({ bounds: { fresh_g: { low: 5 } } });
    quiet({ bounds: { dry_g: { low: 5 } } });
    quiet({ flushes: [flush(2), flush(3, 50)] });
  });

  test("that were lost after an earlier flush are good, which is noted", () => {
    const { tray, said } = merged(
      { outcome: "good", flushes: [flush(1, 200)] },
      { outcome: "contaminated", flushes: [flush(2)] },
    );
    expect(tray.outcome).toBe("good");
    expect(said).toEqual(["3 outcome later-flush-lost note  -> good"]);
  });

  test("that are good and lost at once are asked about in each row", () => {
    const { tray, said } = merged({ outcome: "good" }, { outcome: "failed" }, {});
    expect([tray.outcome, said]).toEqual([
      "asked",
      ["2 outcome conflict warning good -> ", "3 outcome conflict warning failed -> "],
    ]);
  });
});

describe("limits on a fact in several rows", () => {
  const limits = (fresh_g: Bounds): Partial<TrayDraft> => ({ bounds: { fresh_g } });
  test.each<[string, Partial<TrayDraft>[], Bounds | undefined, boolean]>([
    ["narrow each other", [limits({ low: 5 }), limits({ high: 10 })], { low: 5, high: 10 }, false],
    ["leave nothing", [limits({ low: 11 }), limits({ high: 10 })], undefined, true],
    ["leave one value", [limits({ low: 10 }), limits({ high: 10 })], { low: 10, high: 10 }, false],
    ["are not needed beside the weight", [limits({ low: 5 }), { flushes: [flush(0, 7)] }], undefined, false],
    ["hold the weight at their low end", [limits({ low: 7 }), { flushes: [flush(0, 7)] }], undefined, false],
    ["hold the weight at their high end", [limits({ high: 7 }), { flushes: [flush(0, 7)] }], undefined, false],
    ["leave the weight out below", [limits({ low: 8 }), { flushes: [flush(0, 7)] }], undefined, true],
    ["leave the weight out above", [limits({ high: 6 }), { flushes: [flush(0, 7)] }], undefined, true],
    [
      "are of another flush than the weight",
      [{ ...limits({ low: 8 }), flushes: [flush(2)] }, { flushes: [flush(1, 7)] }],
      { low: 8 },
      false,
    ],
  ])("%s", (_, rows, left, conflicts) => {
    const { tray, said } = merged(...rows);
    expect(tray.bounds.fresh_g).toEqual(left);
    expect(tray.flags).toEqual(conflicts ? ["conflict"] : []);
    expect(said.filter((entry) => entry.includes("fresh_g conflict warning")).length > 0).toBe(conflicts);
  });
  test.each<[string, Partial<TrayDraft>, Bounds | undefined, number]>([
    ["a dose within is kept", { inoculumMillilitres: 5 }, undefined, 0],
    ["a dose at the low end", { inoculumMillilitres: 4 }, undefined, 0],
    ["a dose at the high end", { inoculumMillilitres: 6 }, undefined, 0],
    ["a dose below", { inoculumMillilitres: 3.9 }, undefined, 1],
    ["a dose above", { inoculumMillilitres: 6.1 }, undefined, 1],
    ["no dose", {}, { low: 4, high: 6 }, 0],
  ])("%s", (_, row, left, conflicts) => {
    const { tray, said } = merged({ bounds: { inoculum_ml: { low: 4, high: 6 } } }, row);
    expect(tray.inoculumMillilitres).toBe(row.inoculumMillilitres);
    expect(tray.bounds.inoculum_ml).toEqual(left);
    expect(said.filter((entry) => entry.startsWith("2 inoculum_ml conflict warning"))).toHaveLength(conflicts);
  });
  test("beside another's weight of the same flush, dry and fresh each by themselves", () => {
    const { tray } = merged(
      { bounds: { dry_g: { low: 2 }, fresh_g: { low: 2 } } },
      { flushes: [flush(0, undefined, 7)] },
    );
    expect(tray.bounds).toEqual({ fresh_g: { low: 2 } });
  });
});

test.each<[Bounds, Bounds, Bounds | undefined]>([
  [{}, {}, {}],
  [{ low: 1 }, {}, { low: 1 }],
  [{ low: 1 }, { low: 2 }, { low: 2 }],
  [{ high: 1 }, { high: 2 }, { high: 1 }],
  [{ high: 1 }, {}, { high: 1 }],
  [{ low: 1 }, { high: 2 }, { low: 1, high: 2 }],
  [{ low: 2 }, { high: 2 }, { low: 2, high: 2 }],
  [{ low: 3 }, { high: 2 }, undefined],
])("%j and %j leave %j", (a, b, both) => {
  expect(narrower(a, b)).toStrictEqual(both);
  expect(narrower(b, a)).toStrictEqual(both);
});

test("pickings of one number are one, in the order of their numbers", () => {
  const { flushes, conflicts } = mergeFlushes([
    draftOf({ flushes: [flush(2, 50), flush(3)] }),
    draftOf({ row: 3, flushes: [flush(1, 200), flush(2, 50, 5)] }),
  ]);
  expect(flushes).toEqual([flush(1, 200), flush(2, 50, 5), flush(3)]);
  expect(conflicts).toEqual([]);
  const two = mergeFlushes([draftOf({ flushes: [flush(1, 200)] }), draftOf({ row: 3, flushes: [flush(1, 210)] })]);
  expect(two).toEqual({
    flushes: [flush(1)],
    conflicts: [
      {
        field: "fresh_g",
        accounts: [
          { source: { file: "a.csv", row: 2 }, value: 200 },
          { source: { file: "a.csv", row: 3 }, value: 210 },
        ],
      },
    ],
  });
});

// a tray that is typed as growing was not over yet when that row was typed
test.each<[string, [Outcome | undefined, number][], Outcome | undefined, "contradicts" | "laterFlushLost" | undefined]>(
  [
    ["none", [[undefined, 0]], undefined, undefined],
    [
      "one",
      [
        ["good", 0],
        [undefined, 0],
      ],
      "good",
      undefined,
    ],
    [
      "the same twice",
      [
        ["failed", 0],
        ["failed", 0],
      ],
      "failed",
      undefined,
    ],
    [
      "growing, then good",
      [
        ["growing", 0],
        ["good", 0],
      ],
      "good",
      undefined,
    ],
    [
      "good, and a later flush growing",
      [
        ["good", 1],
        ["growing", 2],
      ],
      "growing",
      undefined,
    ],
    [
      "good, and its own flush growing",
      [
        ["good", 2],
        ["growing", 2],
      ],
      "good",
      undefined,
    ],
    [
      "asked beside good",
      [
        ["asked", 0],
        ["good", 0],
      ],
      "asked",
      undefined,
    ],
    [
      "two losses",
      [
        ["discarded", 0],
        ["contaminated", 0],
      ],
      "contaminated",
      undefined,
    ],
    [
      "good, and lost later",
      [
        ["good", 1],
        ["failed", 2],
      ],
      "good",
      "laterFlushLost",
    ],
    [
      "good twice, and lost later",
      [
        ["good", 1],
        ["good", 2],
        ["failed", 3],
      ],
      "good",
      "laterFlushLost",
    ],
    [
      "good, and lost at once",
      [
        ["good", 1],
        ["failed", 1],
      ],
      "asked",
      "contradicts",
    ],
    [
      "lost, and good later",
      [
        ["failed", 1],
        ["good", 2],
      ],
      "asked",
      "contradicts",
    ],
    [
      "lost between",
      [
        ["good", 1],
        ["failed", 2],
        ["good", 3],
      ],
      "asked",
      "contradicts",
    ],
    [
      "lost twice, once too early",
      [
        ["good", 2],
        ["failed", 1],
        ["contaminated", 3],
      ],
      "asked",
      "contradicts",
    ],
  ],
)("outcomes of a tray's rows: %s", (_, rows, outcome, how) => {
  const drafts = rows.map(([said, number]) => draftOf({ outcome: said, flushes: number === 0 ? [] : [flush(number)] }));
  expect(mergeOutcomes(drafts)).toEqual({
    outcome,
    contradicts: how === "contradicts",
    laterFlushLost: how === "laterFlushLost",
  });
});

test("the worst of several outcomes", () => {
  const inOrder: Outcome[] = ["asked", "contaminated", "failed", "discarded", "growing", "good"];
  for (const [at, worst] of inOrder.entries()) expect(worstOf(inOrder.slice(at).reverse())).toBe(worst);
});

test.each<[TraySaid | "asked" | undefined, TraySaid[], Outcome | undefined, TraySaid | undefined, boolean]>([
  [undefined, [], undefined, undefined, false],
  ["good", [], "good", undefined, false],
  ["drying", [], undefined, "drying", false],
  ["asked", ["contaminated"], "asked", undefined, false],
  [undefined, ["contaminated"], "contaminated", undefined, false],
  [undefined, ["drying"], undefined, "drying", false],
  ["failed", ["failed"], "failed", undefined, false],
  ["failed", ["contaminated"], "contaminated", undefined, false],
  ["contaminated", ["failed"], "contaminated", undefined, false],
  ["good", ["contaminated"], "asked", undefined, true],
  ["not lost", ["contaminated"], "asked", undefined, true],
  ["growing", ["contaminated"], "contaminated", undefined, false],
  ["pending", ["contaminated"], "contaminated", undefined, false],
  ["good", ["drying"], "good", undefined, false],
  ["good", ["pending"], "good", undefined, false],
  ["not lost", ["drying"], undefined, "drying", false],
  ["pending", ["drying"], undefined, "drying", false],
  [undefined, ["not lost"], undefined, "not lost", false],
  [undefined, ["drying", "contaminated", "failed"], "contaminated", undefined, false],
])("typed %s beside the words %j", (typed, words, outcome, says, contradicts) => {
  expect(rowOutcome(typed, words)).toEqual({ outcome, ...(says === undefined ? {} : { says }), contradicts });
});

test("what rows tell of an end together", () => {
  expect(jointEvidence([])).toBeUndefined();
  const none = { queried: false, unread: false, dated: false, leftOut: false };
  expect(jointEvidence([{}])).toStrictEqual(none);
  expect(jointEvidence([{ queried: true }, { unread: true }])).toStrictEqual({ ...none, queried: true, unread: true });
  expect(jointEvidence([{ dated: true }, {}])).toStrictEqual({ ...none, dated: true });
  const words = ["drying", "spent", "pending", "not lost"] as const;
  for (const [at, says] of words.entries())
    expect(
      jointEvidence(
        words
          .slice(at)
          .reverse()
          .map((word) => ({ says: word })),
      ),
    ).toStrictEqual({ ...none, says });
});
