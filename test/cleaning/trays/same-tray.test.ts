import { expect, test } from "vitest";
import { partingFacts } from "../../../src/cleaning/trays/parting-facts.ts";
import { kinship, rowFacts } from "../../../src/cleaning/trays/same-tray.ts";
import { splitByTray } from "../../../src/cleaning/trays/split-names.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import type { Flush } from "../../../src/records/tray.ts";
import { draftOf, entriesOf, logOf } from "./drafts.ts";

const picked = (freshGrams?: number, harvestedOn?: string, number = 0, dryGrams?: number): Partial<TrayDraft> => {
  const flush: Flush = { number };
  if (freshGrams !== undefined) flush.freshGrams = freshGrams;
  if (dryGrams !== undefined) flush.dryGrams = dryGrams;
  if (harvestedOn !== undefined) flush.harvestedOn = harvestedOn;
  return { flushes: [flush] };
};
const other = { file: "b.csv" };
const [first, second] = ["2026-02-01", "2026-02-20"];

// which rows of one name are one tray: what a careful person says, common practice, no source
test.each<[string, Partial<TrayDraft>, Partial<TrayDraft>, ReturnType<typeof kinship>]>([
  ["the same", { strain: "Blue" }, { strain: "Blue" }, "one tray"],
  ["spelt otherwise", { strain: "Blue  oyster" }, { strain: "blue oyster" }, "one tray"],
  ["completing each other", { strain: "Blue" }, { jar: "J1" }, "one tray"],
  ["two strains in one sheet", { strain: "Blue" }, { strain: "Grey" }, "unclear"],
  ["two doses in one sheet", { inoculumMillilitres: 5 }, { inoculumMillilitres: 10 }, "unclear"],
  ["two free facts in one sheet", { factors: { lid: "red" } }, { factors: { lid: "blue" } }, "unclear"],
  ["one free fact in one case and another", { factors: { lid: "red" } }, { factors: { lid: "Red" } }, "one tray"],
  ["free facts of other columns", { factors: { lid: "red" } }, { factors: { bag: "blue" } }, "one tray"],
  ["inoculated on two days", { inoculatedOn: first }, { inoculatedOn: second }, "two trays"],
  ["one of them without its day", { inoculatedOn: first }, {}, "one tray"],
  ["of two cooks", { batch: "A" }, { batch: "B" }, "unclear"],
  ["of two cooks, both picked", { batch: "A", ...picked(200) }, { batch: "B", ...picked(200) }, "two trays"],
  ["of two cooks, one picked", { batch: "A", ...picked(200) }, { batch: "B" }, "unclear"],
  ["of two cooks and strains", { batch: "A", strain: "Blue" }, { batch: "B", strain: "Grey" }, "two trays"],
  ["two weights", picked(200), picked(210), "unclear"],
  ["two dry weights", picked(200, undefined, 0, 20), picked(200, undefined, 0, 21), "unclear"],
  ["two weights on two days", picked(200, first), picked(210, second), "one tray"],
  ["two weights on one day", picked(200, first), picked(210, first), "unclear"],
  ["two weights, one without its day", picked(200, first), picked(210), "unclear"],
  ["two weights, the other without its day", picked(200), picked(210, second), "unclear"],
  ["two weights of two flushes", picked(200, undefined, 1), picked(210, undefined, 2), "one tray"],
  ["two weights of one flush", picked(200, undefined, 2), picked(210, undefined, 2), "unclear"],
  [
    "two weights on two days and two strains",
    { ...picked(200, first), strain: "Blue" },
    { ...picked(210, second), strain: "Grey" },
    "unclear",
  ],
  ["in two sheets", { strain: "Blue" }, { ...other, strain: "Blue" }, "one tray"],
  ["in two sheets, of two strains", { strain: "Blue" }, { ...other, strain: "Grey" }, "unclear"],
  [
    "in two sheets, of two strains, both picked",
    { strain: "Blue", ...picked(200) },
    { ...other, strain: "Grey", ...picked(200) },
    "two trays",
  ],
  [
    "in two sheets, of two strains, one picked",
    { strain: "Blue", ...picked(200) },
    { ...other, strain: "Grey" },
    "unclear",
  ],
  ["in two sheets, two weights", picked(200), { ...other, ...picked(210) }, "unclear"],
  [
    "in two sheets, two weights and strains",
    { strain: "Blue", ...picked(200) },
    { ...other, strain: "Grey", ...picked(210) },
    "two trays",
  ],
  ["in two sheets, picked apart, nothing else", picked(200, first), { ...other, ...picked(210, second) }, "unclear"],
  [
    "in two sheets, picked apart, of one cook",
    { batch: "A", ...picked(200, first) },
    { ...other, batch: "A", ...picked(210, second) },
    "one tray",
  ],
  [
    "in two sheets, picked apart, inoculated on one day",
    { inoculatedOn: first, ...picked(200, first) },
    { ...other, inoculatedOn: first, ...picked(210, second) },
    "one tray",
  ],
  [
    "in two sheets, picked apart, one with its cook",
    { batch: "A", ...picked(200, first) },
    { ...other, ...picked(210, second) },
    "unclear",
  ],
  [
    "in two sheets, picked apart, one inoculated",
    { inoculatedOn: first, ...picked(200, first) },
    { ...other, ...picked(210, second) },
    "unclear",
  ],
  [
    "in two sheets, picked on one day, of one cook",
    { batch: "A", ...picked(200, first) },
    { ...other, batch: "A", ...picked(210, first) },
    "unclear",
  ],
])("rows of one name, %s: %s and %s", (_, one, two, kin) => {
  const [a, b] = [draftOf(one), draftOf({ row: 3, ...two })].map((draft) => rowFacts(draft, undefined));
  expect(kinship(a!, b!)).toBe(kin);
  expect(kinship(b!, a!)).toBe(kin);
});

test("what parts the trays of a sheet parts its rows, and no row of another sheet", () => {
  const jar = ({ jar: name }: TrayDraft) => name;
  const kin = (two: Partial<TrayDraft>, parting: typeof jar | undefined = jar) =>
    kinship(rowFacts(draftOf({ jar: "J1" }), jar), rowFacts(draftOf({ row: 3, ...two }), parting));
  expect(kin({ jar: "J2" })).toBe("two trays");
  expect(kin({ jar: "J1" })).toBe("one tray");
  expect(kin({ ...other, jar: "J2" }, undefined)).toBe("unclear");
});

const rows = (...facts: Partial<TrayDraft>[]) => facts.map((one, at) => draftOf({ row: at + 2, ...one }));

test("names that begin again for each jar, strain or dose are parted by it", () => {
  const parts = (facts: Partial<TrayDraft>[]) => {
    const [found] = [...partingFacts(rows(...facts)).values()];
    return found === undefined ? undefined : facts.map((one) => found(draftOf(one)));
  };
  const names = ["1", "2", "1", "2"];
  const with2 = (property: keyof TrayDraft, a: unknown, b: unknown) =>
    parts(names.map((trayId, at) => ({ trayId, [property]: at < 2 ? a : b })));
  expect(with2("jar", "J1", "J2")).toEqual(["J1", "J1", "J2", "J2"]);
  expect(with2("jar", "1", "2")).toEqual(
    ["Culture jar 1", "Culture jar 1", "Culture jar 2", "Culture jar 2"].map((text) =>
      expect.stringMatching(new RegExp(`${text.slice(-1)}$`)),
    ),
  );
  for (const property of ["strain", "load", "supplement", "supplementGrade"] as const)
    expect(with2(property, "a", "b")).toEqual(["a", "a", "b", "b"]);
  for (const property of [
    "cultureGeneration",
    "supplementGrams",
    "inoculumMillilitres",
    "spawnGrams",
    "substrateWetGrams",
    "grainDryGrams",
  ] as const)
    expect(with2(property, 5, 10)?.[0]).toMatch(/ 5$/);
  expect(with2("spawnShare", 0.05, 0.1)?.[0]).toMatch(/ 5$/);
  // what may differ from flush to flush parts no trays
  for (const property of ["shelf", "chamber", "operator", "driedOn"] as const)
    expect(with2(property, "a", "b")).toBeUndefined();
  expect(with2("jar", "J1", "J1")).toBeUndefined();
  expect(with2("jar", "J1", undefined)).toBeUndefined();
  const jars = (...pairs: [trayId: string, jar: string][]) => parts(pairs.map(([trayId, jar]) => ({ trayId, jar })));
  // a block that comes again, a name twice in its block, one name that comes again, a block of one row
  expect(jars(["1", "A"], ["2", "A"], ["1", "B"], ["2", "B"], ["3", "A"])).toBeUndefined();
  expect(jars(["1", "A"], ["1", "A"], ["1", "B"], ["2", "B"])).toBeUndefined();
  expect(jars(["1", "A"], ["2", "A"], ["1", "B"], ["3", "B"])).toBeUndefined();
  expect(jars(["1", "A"], ["2", "A"], ["1", "B"], ["2", "B"], ["1", "C"])).toBeUndefined();
  expect(jars(["1", "A"], ["2", "A"], ["01", "B"], ["T 2", "B"], ["2", "C"], ["3", "C"])).toBeDefined();
});

test("each sheet has what parts its own trays", () => {
  const facts = ["1", "2", "1", "2"].flatMap((trayId, at) => [
    { trayId, jar: at < 2 ? "A" : "B" },
    { trayId, file: "b.csv", strain: at < 2 ? "x" : "y" },
    { trayId, file: "c.csv" },
  ]);
  const found = partingFacts(rows(...facts));
  expect([...found.keys()]).toEqual(["a.csv", "b.csv"]);
  expect(found.get("b.csv")!(draftOf({ strain: "x", jar: "A" }))).toBe("x");
});

const split = (facts: Partial<TrayDraft>[], parting = new Map<string, (draft: TrayDraft) => string | undefined>()) => {
  const { log, said } = logOf();
  const groups = splitByTray(rows(...facts), log, parting);
  return {
    trays: groups.map((group) => [group[0]!.trayId, ...group.map(({ row }) => row)]),
    flushes: groups.map((group) => group.map(({ flushes }) => flushes[0]?.number)),
    said: entriesOf(said),
    names: groups.flat().map(({ trayId }) => trayId),
  };
};

test("rows of one tray are one group, under the first spelling of its name", () => {
  expect(split([{ trayId: "T1" }, { trayId: "t-01" }])).toMatchObject({
    trays: [["T1", 2, 3]],
    names: ["T1", "T1"],
    said: ["3 tray_id name-spelling change t-01 -> T1"],
  });
  // the order of the rows does not matter
  expect(split([{ row: 9, trayId: "t-01" }, { row: 4 }]).trays).toEqual([["T1", 4, 9]]);
  expect(split([{ file: "b.csv", trayId: "t-01" }, { row: 9 }]).trays).toEqual([["T1", 9, 2]]);
});

test("several trays of one name are called by what tells them apart: cook, day, what parts them, file, row", () => {
  const two = (a: Partial<TrayDraft>, b: Partial<TrayDraft>, parting?: Parameters<typeof split>[1]) =>
    split(
      [
        { ...picked(200), ...a },
        { ...picked(300), ...b },
      ],
      parting,
    );
  const twice = (own: string, row: number) => `${row} tray_id name-used-twice note T1 -> ${own}`;
  const days = { inoculatedOn: first };
  expect(two({ batch: "A", ...days }, { batch: "B", inoculatedOn: second })).toMatchObject({
    trays: [
      ["T1 (A)", 2],
      ["T1 (B)", 3],
    ],
    said: [twice("T1 (A)", 2), twice("T1 (B)", 3)],
  });
  expect(two({ batch: "A", ...days }, { batch: "A", inoculatedOn: second }).trays).toEqual([
    [`T1 (${first})`, 2],
    [`T1 (${second})`, 3],
  ]);
  expect(two({ ...days, jar: "J1" }, { jar: "J2" }, new Map([["a.csv", ({ jar }: TrayDraft) => jar]])).trays).toEqual([
    ["T1 (J1)", 2],
    ["T1 (J2)", 3],
  ]);
  expect(
    two({ file: "x/april.csv", strain: "a" }, { file: "x/may 2.v3.xlsx > Tab", strain: "b" }).trays.map(
      ([name]) => name,
    ),
  ).toEqual(["T1 (april)", "T1 (may 2.v3 > Tab)"]);
  const three = split([
    { ...picked(200), batch: "A" },
    { ...picked(300), batch: "B" },
    { ...picked(300), strain: "x", file: "b.csv", inoculatedOn: first },
  ]);
  expect(three.trays.length).toBeGreaterThan(1);
});

test("pickings on different days without numbers are flushes in the order of their days, where nothing is unclear", () => {
  const found = split([picked(200, second), picked(150, first)]);
  expect(found).toMatchObject({
    flushes: [[2, 1]],
    said: ["2 flush flush-by-day change  -> 2", "3 flush flush-by-day change  -> 1"],
  });
  const unnumbered = (...facts: Partial<TrayDraft>[]) => expect(split(facts)).toMatchObject({ said: [] });
  unnumbered(picked(200, first));
  unnumbered(picked(200, first), picked(200, first));
  unnumbered(picked(200, first), picked(200));
  unnumbered(picked(200, first, 1), picked(150, second, 2));
  unnumbered(picked(200, first), { flushes: [] });
  // of two sheets that nothing holds together
  unnumbered(picked(200, first), { ...other, ...picked(210, second) });
});
