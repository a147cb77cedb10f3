import { describe, expect, test } from "vitest";
import { weighedTrays } from "../../../src/cleaning/plausibility/weighed-trays.ts";
import { askUnexplained } from "../../../src/cleaning/trays/ask-unexplained.ts";
import { setSlipsAside } from "../../../src/cleaning/trays/slips-of-weights.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import { levelKey, unifySpellings } from "../../../src/cleaning/trays/unify-spellings.ts";
import { heaviestFlush, weightPlaces } from "../../../src/cleaning/trays/weight-places.ts";
import { keepWeightsInReach, setWateryAside } from "../../../src/cleaning/trays/weights-in-reach.ts";
import type { Flush, Tray } from "../../../src/records/tray.ts";
import { draftOf, entriesOf, logOf } from "./drafts.ts";

const flush = (number: number, freshGrams?: number, dryGrams?: number): Flush => ({
  number,
  ...(freshGrams === undefined ? {} : { freshGrams }),
  ...(dryGrams === undefined ? {} : { dryGrams }),
});
const kept = (facts: Partial<TrayDraft>) => {
  const { log, said } = logOf();
  const draft = draftOf(facts);
  const wasSetAside = keepWeightsInReach(draft, log);
  return { weights: [draft.freshGrams, draft.dryGrams], wasSetAside, said: entriesOf(said), draft, issues: said };
};
const far = (field: string, raw: string) => `2 ${field} weight-out-of-reach error ${raw} g -> `;

// what one tray can give, fresh from 0.5 to 5000 g and dry from 0.05 to 600 g; common practice, no source
test.each<[string, Partial<TrayDraft>, (number | undefined)[], string[]]>([
  ["nothing", {}, [undefined, undefined], []],
  ["usual ones", { freshGrams: 200, dryGrams: 20 }, [200, 20], []],
  ["fresh only", { freshGrams: 200 }, [200, undefined], []],
  ["both at their least", { freshGrams: 0.5, dryGrams: 0.05 }, [0.5, 0.05], []],
  ["both at their most", { freshGrams: 5000, dryGrams: 600 }, [5000, 600], []],
  ["as much dry as fresh", { freshGrams: 200, dryGrams: 200 }, [200, 200], []],
  [
    "more dry than fresh",
    { freshGrams: 20, dryGrams: 200 },
    [undefined, undefined],
    ["2 dry_g dry-above-fresh error 200 dry, 20 fresh -> "],
  ],
  ["nothing dry", { freshGrams: 200, dryGrams: 0 }, [200, undefined], ["2 dry_g dry-zero warning 0 -> "]],
  ["nothing at all", { freshGrams: 0, dryGrams: 0 }, [0, 0], []],
  ["nothing dry alone", { dryGrams: 0 }, [undefined, 0], []],
  ["too much fresh", { freshGrams: 5001 }, [undefined, undefined], [far("fresh_g", "5001")]],
  ["too little fresh", { freshGrams: 0.4 }, [undefined, undefined], [far("fresh_g", "0.4")]],
  ["too much dry", { dryGrams: 601 }, [undefined, undefined], [far("dry_g", "601")]],
  ["too little dry", { dryGrams: 0.04 }, [undefined, undefined], [far("dry_g", "0.04")]],
  // fresh over dry is from 3 to 33 where both are in the same wrong unit
  [
    "too much fresh, and a dry weight that fits it",
    { freshGrams: 6000, dryGrams: 590 },
    [undefined, undefined],
    [far("fresh_g", "6000"), far("dry_g", "590")],
  ],
  [
    "too much fresh, 33 times the dry weight",
    { freshGrams: 6600, dryGrams: 200 },
    [undefined, undefined],
    [far("fresh_g", "6600"), far("dry_g", "200")],
  ],
  [
    "too much fresh, and a dry weight that does not fit it",
    { freshGrams: 6700, dryGrams: 200 },
    [undefined, 200],
    [far("fresh_g", "6700")],
  ],
  [
    "too much dry, and a fresh weight that fits it",
    { freshGrams: 1983, dryGrams: 661 },
    [undefined, undefined],
    [far("dry_g", "661"), far("fresh_g", "1983")],
  ],
  [
    "too much dry, and a fresh weight that does not fit it",
    { freshGrams: 1982, dryGrams: 661 },
    [1982, undefined],
    [far("dry_g", "661")],
  ],
  [
    "too much of both",
    { freshGrams: 6000, dryGrams: 700 },
    [undefined, undefined],
    [far("fresh_g", "6000"), far("dry_g", "700")],
  ],
  ["those of a pool, by its trays", { freshGrams: 10_000, dryGrams: 1200, traysInPool: 2 }, [10_000, 1200], []],
  ["too much of a pool", { freshGrams: 10_001, traysInPool: 2 }, [undefined, undefined], [far("fresh_g", "10001")]],
  ["too little of a pool", { freshGrams: 0.9, traysInPool: 2 }, [undefined, undefined], [far("fresh_g", "0.9")]],
])("weights: %s", (_, facts, weights, said) => {
  const found = kept(facts);
  expect([found.weights, found.said]).toEqual([weights, said]);
  const isOut = said.some((entry) => entry.includes("error"));
  expect(found.wasSetAside).toBe(isOut);
  expect(found.draft.flags).toEqual([...new Set(said.map((entry) => entry.split(" ")[2]))]);
  for (const { action, severity } of found.issues) expect(action.includes("columns.csv")).toBe(severity === "error");
});

test("limits of a weight out of reach go with it, others stay", () => {
  const bounds = { fresh_g: { low: 1 }, dry_g: { low: 1 } };
  expect(kept({ freshGrams: 9000, bounds }).draft.bounds).toEqual({ dry_g: { low: 1 } });
});

test("where flushes are weighed the one that cannot be is pointed out, and the day of it stays", () => {
  const two = kept({
    freshGrams: 7200,
    flushes: [
      { ...flush(1, 200), harvestedOn: "2026-02-01" },
      { ...flush(2, 7000), harvestedOn: "2026-02-20" },
      flush(3, 50),
    ],
  });
  expect(two.draft.flushes).toEqual([
    { number: 1, harvestedOn: "2026-02-01" },
    { number: 2, harvestedOn: "2026-02-20" },
  ]);
  expect(two.said).toEqual([far("fresh_g", "7200")]);
  // without a total the heaviest flush is judged by itself
  expect(kept({ flushes: [flush(1, 7000), flush(2, undefined, 5)] }).said).toEqual([far("fresh_g", "7000")]);
  expect(kept({ freshGrams: 260, dryGrams: 25, flushes: [flush(1, 200, 5), flush(2, 15, 20)] }).said).toEqual([
    "2 dry_g dry-above-fresh error 20 dry, 15 fresh -> ",
  ]);
  expect(kept({ freshGrams: 260, dryGrams: 25, flushes: [flush(1, 200, 5), flush(2, 60, 20)] }).said).toEqual([]);
  // a single flush is the tray's own weight
  expect(kept({ freshGrams: 15, dryGrams: 20, flushes: [flush(2, 15, 20)] }).said).toHaveLength(1);
});

const tray = (freshGrams: number, dryGrams: number, facts: Partial<TrayDraft> = {}) =>
  draftOf({ outcome: "good", freshGrams, dryGrams, ...facts }) as Tray;
// no mushroom weighs more than 33 times as much fresh as dry; common practice, no source
describe("a fresh weight that no dry one allows", () => {
  const watery = (odd: Tray, usual = 3) => {
    const { log, said } = logOf();
    const trays = [...Array.from({ length: usual }, () => tray(200, 20)), tray(200, 0), tray(0, 0), odd];
    setWateryAside(trays, weighedTrays(trays), log);
    return {
      weights: [odd.freshGrams, odd.dryGrams],
      said: entriesOf(said),
      reason: said[0]?.reason.split("? ").at(-1),
    };
  };
  test.each<[string, number, number, number, (number | undefined)[], string | undefined, string | undefined]>([
    ["33 times", 660, 20, 3, [660, 20], undefined, undefined],
    ["a dry weight that is odd", 200, 6, 3, [200, undefined], "dry_g", "The dry weight is not used"],
    ["a fresh weight that is odd", 700, 20, 3, [undefined, 20], "fresh_g", "The fresh weight is not used"],
    ["both odd", 1000, 5, 3, [undefined, undefined], "dry_g", "Neither weight is used"],
    ["neither odd", 400, 10, 3, [undefined, undefined], "dry_g", "Neither weight is used"],
    ["too few others to tell", 200, 6, 2, [undefined, undefined], "dry_g", "Neither weight is used"],
  ])("%s", (_, fresh, dry, usual, weights, field, reason) => {
    const found = watery(tray(fresh, dry), usual);
    expect(found.weights).toEqual(weights);
    expect(found.said).toEqual(
      field === undefined ? [] : [`2 ${field} fresh-over-dry error ${dry} dry, ${fresh} fresh -> `],
    );
    expect(found.reason).toBe(reason);
  });
  test("a pool is compared by its trays", () => {
    expect(watery(tray(800, 24, { traysInPool: 4 })).weights).toEqual([800, undefined]);
  });
});

// seven times the usual weight, or a fifteenth of it, is a slip where four trays at least have a usual one; common practice
describe("weights that are a slip", () => {
  const slips = (weights: (number | undefined)[], facts: (at: number) => Partial<TrayDraft> = () => ({})) => {
    const { log, said } = logOf();
    const trays = weights.map(
      (freshGrams, at) =>
        draftOf({
          outcome: "good",
          row: at,
          ...(freshGrams === undefined ? {} : { freshGrams }),
          ...facts(at),
        }) as Tray,
    );
    setSlipsAside(trays, weighedTrays(trays), log);
    return {
      aside: weights.filter((weight, at) => weight !== undefined && trays[at]!.freshGrams === undefined),
      said: entriesOf(said),
      issues: said,
    };
  };
  test("are set aside as errors that tell the usual weight", () => {
    const { aside, said, issues } = slips([200, 200, 200, 1400]);
    expect([aside, said]).toEqual([[1400], ["3 fresh_g weight-slip error 1400 -> "]]);
    expect(issues[0]).toMatchObject({
      expected: "fresh weights near 200 g",
      reason: expect.stringMatching(/^many times/),
    });
    expect(slips([200, 200, 200, 13]).issues[0]!.reason).toMatch(/^a small part/);
  });
  test("need four trays that can be compared", () => {
    expect(slips([200, 200, 1400]).aside).toEqual([]);
    expect(slips([200, 200, 200, 1400, undefined]).aside).toEqual([1400]);
    expect(slips([200, 200, 200, 1400], (at) => (at === 0 ? { outcome: "failed" } : {})).aside).toEqual([]);
    expect(slips([200, 200, 200, 1400], (at) => (at === 3 ? { outcome: "asked" } : {})).aside).toEqual([]);
    expect(slips([0, 200, 200, 1400]).aside).toEqual([]);
    expect(slips([200, 200, 200, 1400, 0]).aside).toEqual([1400]);
  });
  test("are of trays of one strain and container, and of one dose where that has enough", () => {
    const kinds = (one: Partial<TrayDraft>) =>
      slips([200, 200, 200, 1400], (at) => (at === 3 ? one : { strain: "a", container: "bag" })).aside;
    expect(kinds({ strain: "a", container: "bag" })).toEqual([1400]);
    expect(kinds({ strain: "b", container: "bag" })).toEqual([]);
    expect(kinds({ strain: "a", container: "tub" })).toEqual([]);
    expect(kinds({ strain: "a" })).toEqual([]);
    expect(kinds({ container: "bag" })).toEqual([]);
    const doses = (own: number) =>
      slips([20, 20, 20, 20, 200, 200, 200, 200, 1400], (at) => ({
        inoculumMillilitres: at < 4 ? 1 : at < 8 ? 10 : own,
      })).aside;
    expect(doses(10)).toEqual([1400]);
    expect(doses(1)).toEqual([1400]);
    expect(
      slips([20, 20, 20, 20, 200, 200, 200, 200, 150], (at) => ({ inoculumMillilitres: at < 4 || at === 8 ? 1 : 10 }))
        .aside,
    ).toEqual([150]);
    expect(
      slips([20, 20, 20, 20, 200, 200, 200, 200, 150], (at) => ({ inoculumMillilitres: at < 4 ? 1 : 10 })).aside,
    ).toEqual([]);
  });
  test("of a pool are judged by its trays; dry weights likewise", () => {
    expect(slips([200, 200, 200, 1400], (at) => (at === 3 ? { traysInPool: 7 } : {})).aside).toEqual([]);
    const { log, said } = logOf();
    const trays = [20, 20, 20, 141].map((dryGrams) => draftOf({ outcome: "good", dryGrams }) as Tray);
    setSlipsAside(trays, weighedTrays(trays), log);
    expect(entriesOf(said)).toEqual(["2 dry_g weight-slip error 141 -> "]);
  });
});

test("the heaviest picking of a kind of weight, the first of equal ones", () => {
  const three = [flush(1, 50, 9), flush(2, 200), flush(3, 200, 5), flush(4)];
  expect(heaviestFlush(three, "freshGrams")?.number).toBe(2);
  expect(heaviestFlush(three, "dryGrams")?.number).toBe(1);
  expect(heaviestFlush([flush(1, 0)], "freshGrams")?.number).toBe(1);
  expect(heaviestFlush([flush(1)], "freshGrams")).toBeUndefined();
});

describe("the cell where a fact of a tray was typed", () => {
  const source = (row: number, file = "a.csv") => ({ file, row });
  const row = (at: number, flushes: Flush[], file = "a.csv") => draftOf({ row: at, file, flushes });
  const rows = [row(2, [flush(1, 200)]), row(3, [flush(2, 50, 5)]), row(4, [flush(0, 30)], "b.csv")];
  const sources = [source(2), source(3), source(4, "b.csv")];
  const headerOf = (file: string, field: string, number?: number) =>
    file === "a.csv" && field === "dry_g" ? "" : `${file} ${field} ${number ?? ""}`.trim();
  const place = weightPlaces(rows, headerOf);
  const of = (
    facts: Partial<TrayDraft>,
    ...where: [field: "fresh_g" | "dry_g" | "harvested_on" | "strain", flush?: number]
  ) => place(draftOf({ file: undefined, row: undefined, sources, ...facts }), ...where);

  test("of one row is there", () => {
    expect(place(draftOf({ row: 9, freshGrams: 5 }), "fresh_g")).toEqual({ ...source(9), column: "a.csv fresh_g 1" });
    expect(place(draftOf({ row: 9 }), "fresh_g")).toEqual({ ...source(9), column: "a.csv fresh_g" });
    expect(place(draftOf({ row: 9, freshGrams: 5 }), "strain")).toEqual({ ...source(9), column: "a.csv strain" });
  });
  test("of the heaviest picking, or of the one that is asked about", () => {
    const flushes = [flush(1, 200), flush(2, 50, 5)];
    expect(of({ flushes }, "fresh_g")).toEqual({ ...source(2), column: "a.csv fresh_g 1" });
    expect(of({ flushes }, "fresh_g", 2)).toEqual({ ...source(3), column: "a.csv fresh_g 2" });
    expect(of({ flushes: [flush(1, 20), flush(2, 50)] }, "fresh_g")).toEqual({
      ...source(3),
      column: "a.csv fresh_g 2",
    });
    expect(of({ flushes }, "harvested_on", 1)).toEqual({ ...source(2), column: "a.csv harvested_on 1" });
    expect(of({ flushes }, "harvested_on")).toEqual({ ...source(2), column: "a.csv harvested_on" });
  });
  test("of a sheet that has the column", () => {
    expect(of({ flushes: [flush(2, 50, 5)] }, "dry_g")).toEqual({ ...source(4, "b.csv"), column: "b.csv dry_g 2" });
    expect(weightPlaces(rows, () => "")(draftOf({ row: 9 }), "dry_g")).toEqual({ ...source(9), column: "" });
  });
  test("of a picking without a number is that of the first", () => {
    const only = [source(3), source(4, "b.csv")];
    expect(of({ sources: only, flushes: [flush(1, 30), flush(2, 5)] }, "fresh_g")).toEqual({
      ...source(4, "b.csv"),
      column: "b.csv fresh_g 1",
    });
    expect(of({ sources: only, flushes: [flush(7, 30)] }, "fresh_g", 7)).toEqual({
      ...source(4, "b.csv"),
      column: "b.csv fresh_g 7",
    });
  });
});

describe("spellings of one name", () => {
  const unified = (property: "strain" | "factor", texts: (string | undefined)[], levels = texts) => {
    const { log, said } = logOf();
    const drafts = texts.map((text, at) =>
      draftOf({
        row: at + 2,
        ...(text === undefined ? {} : property === "strain" ? { strain: text } : { factors: { lid: text } }),
      }),
    );
    const key = property === "strain" ? levelKey("strain", false) : levelKey("lid", true);
    unifySpellings(drafts, [new Map([[key, levels.flatMap((text) => text ?? [])]]), new Map()], log);
    return {
      texts: drafts.map(({ strain, factors }) => (property === "strain" ? strain : factors.lid)),
      said: entriesOf(said),
    };
  };
  test.each([
    [
      "the most frequent",
      ["Rye", "rye", "rye"],
      ["rye", "rye", "rye"],
      ["2 strain spelling-unified change Rye -> rye"],
    ],
    [
      "the first in the alphabet of equal ones",
      ["rye", "Rye"],
      ["Rye", "Rye"],
      ["2 strain spelling-unified change rye -> Rye"],
    ],
    [
      "spaces, hyphens and lines below",
      ["blue-oyster", "Blue  oyster", "blue_oyster", "blue oyster", "blue oyster"],
      ["blue oyster", "blue oyster", "blue oyster", "blue oyster", "blue oyster"],
      [
        "2 strain spelling-unified change blue-oyster -> blue oyster",
        "3 strain spelling-unified change Blue  oyster -> blue oyster",
        "4 strain spelling-unified change blue_oyster -> blue oyster",
      ],
    ],
    ["none where there is one spelling", ["rye", "rye", undefined, "oats"], ["rye", "rye", undefined, "oats"], []],
  ])("%s", (_, texts, expected, said) => {
    expect(unified("strain", texts)).toEqual({ texts: expected, said });
  });
  test("of a free column, under its own header", () => {
    expect(unified("factor", ["Red", "red", "red", undefined])).toEqual({
      texts: ["red", "red", "red", undefined],
      said: ["2 lid spelling-unified change Red -> red"],
    });
  });
  test("by what the sheets hold", () => {
    expect(unified("strain", ["Rye", "rye", "Oats"], ["Rye", "rye", "Oats"]).texts).toEqual(["Rye", "Rye", "Oats"]);
    expect(unified("strain", ["Rye", "rye"], ["Rye"]).said).toEqual([]);
  });
});

// a note that nobody understands may be why its tray has no weight: common practice, no source
test.each<[string, Partial<TrayDraft>[], string[]]>([
  [
    "all others of its cook were picked",
    [
      { batch: "A", note: "hmpf" },
      { batch: "A", outcome: "good" },
    ],
    ["asked", "good"],
  ],
  [
    "others of its cook grow on",
    [{ batch: "A", note: "hmpf" }, { batch: "A", outcome: "good" }, { batch: "A" }],
    ["growing", "good", "growing"],
  ],
  [
    "as many with such notes as were picked",
    [
      { batch: "A", note: "hmpf" },
      { batch: "A", note: "zz" },
      { batch: "A", outcome: "good" },
      { batch: "A", outcome: "failed" },
    ],
    ["asked", "asked", "good", "failed"],
  ],
  [
    "more with such notes than were picked",
    [
      { batch: "A", note: "hmpf" },
      { batch: "A", note: "zz" },
      { batch: "A", outcome: "good" },
    ],
    ["growing", "growing", "good"],
  ],
  [
    "none of its cook was picked",
    [
      { batch: "A", note: "hmpf" },
      { batch: "B", outcome: "good" },
    ],
    ["growing", "good"],
  ],
  [
    "of one day instead of a cook",
    [
      { inoculatedOn: "2026-01-01", note: "hmpf" },
      { inoculatedOn: "2026-01-01", outcome: "good" },
      { inoculatedOn: "2026-01-02" },
    ],
    ["asked", "good", "growing"],
  ],
  [
    "of one sheet instead of a day",
    [{ note: "hmpf" }, { outcome: "good" }, { file: "b.csv" }],
    ["asked", "good", "growing"],
  ],
  [
    "understood",
    [
      { batch: "A", note: "moved to shelf 2" },
      { batch: "A", outcome: "good" },
    ],
    ["growing", "good"],
  ],
  [
    "understood as growing",
    [
      { batch: "A", note: "still growing" },
      { batch: "A", outcome: "good" },
    ],
    ["growing", "good"],
  ],
  [
    "of marks only",
    [
      { batch: "A", note: "..." },
      { batch: "A", outcome: "good" },
    ],
    ["asked", "good"],
  ],
  [
    "with a note that is understood beside",
    [
      { batch: "A", note: "hmpf" },
      { batch: "A", note: "moved to shelf 2" },
      { batch: "A", outcome: "good" },
    ],
    ["asked", "growing", "good"],
  ],
])("a note nobody understands, %s", (_, facts, outcomes) => {
  const { log, said } = logOf();
  const trays = facts.map((one, at) => draftOf({ row: at + 2, outcome: "growing", ...one }));
  askUnexplained(trays, new Set(trays.filter(({ note }) => note !== undefined)), log);
  expect(trays.map(({ outcome }) => outcome)).toEqual(outcomes);
  const asked = trays.filter(({ outcome }) => outcome === "asked");
  expect(entriesOf(said)).toEqual(
    asked.map(({ row, note }) => `${row} note note-not-understood warning ${note} -> asked`),
  );
  expect(asked.every(({ flags }) => flags.join() === "note-not-understood")).toBe(true);
});
