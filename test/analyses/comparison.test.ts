import { expect, test } from "vitest";
import { cooksInOrder } from "../../analyses/comparison/cooks-in-order.ts";
import { differenceFront } from "../../analyses/comparison/difference-front.ts";
import { capital, inRow, inSentence, levelLabel, levelName, theThing } from "../../analyses/comparison/level-text.ts";
import { missingTrays } from "../../analyses/comparison/missing-trays.ts";
import { noAnswer } from "../../analyses/comparison/no-answer.ts";
import { colonisationDays, harvestDays, lastDateOf } from "../../analyses/comparison/tray-days.ts";
import { observe, yieldPerGoodTray, yieldPerStartedTray } from "../../analyses/comparison/tray-response.ts";
import { batchFactor, doseFactor, freeFactor, strainFactor } from "../../src/design/factor.ts";
import type { Product } from "../../src/records/product.ts";
import { hasEnded, isLost, type Outcome, type Tray } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { tray } from "../costing/sample-records.ts";
import { trialOfTrays } from "./demo-records.ts";

// small books whose cooks, weights and days can be told by eye

const outcomes: Outcome[] = ["good", "contaminated", "failed", "discarded", "growing", "asked"];
const places = (trays: ReadonlyArray<Tray>, of: ReadonlyArray<Tray>) => of.map((one) => trays.indexOf(one));
const inOrder = (...facts: Partial<Tray>[]) => {
  const trays = facts.map(tray);
  const { lots, lotName, dated, without } = cooksInOrder(trays);
  return {
    lots: lots.map(({ name, startedOn, trays: own }) => [name, startedOn, places(trays, own)]),
    ...{ lotName, dated, without: places(trays, without) },
  };
};

test("cooks follow one another by their first day of inoculation; those of one day stay in the order of the sheets", () => {
  expect(
    inOrder(
      { batch: "B", inoculatedOn: "2026-03-05" },
      { batch: "A", inoculatedOn: "2026-03-02" },
      { batch: "D", inoculatedOn: "2026-03-03" },
      { batch: "B", inoculatedOn: "2026-03-01" },
      { batch: "B", inoculatedOn: "2026-03-04" },
      { batch: "C", inoculatedOn: "2026-03-03" },
      { batch: "B" },
      {},
    ),
  ).toEqual({
    lots: [
      ["B", "2026-03-01", [0, 3, 4, 6]],
      ["A", "2026-03-02", [1]],
      ["D", "2026-03-03", [2]],
      ["C", "2026-03-03", [5]],
    ],
    ...{ lotName: "cook", dated: true, without: [7] },
  });
});

test("where a cook has no date the order is that of the sheets, and is said to be", () => {
  expect(inOrder({ batch: "B", inoculatedOn: "2026-03-05" }, { batch: "A" }, { inoculatedOn: "2026-03-01" })).toEqual({
    lots: [
      ["B", "2026-03-05", [0]],
      ["A", undefined, [1]],
    ],
    ...{ lotName: "cook", dated: false, without: [2] },
  });
});

test("where no cook is named, the trays of a day are one lot", () => {
  expect(
    inOrder({ inoculatedOn: "2026-03-05" }, { inoculatedOn: "2026-03-01" }, {}, { inoculatedOn: "2026-03-05" }),
  ).toEqual({
    lots: [
      ["2026-03-01", "2026-03-01", [1]],
      ["2026-03-05", "2026-03-05", [0, 3]],
    ],
    ...{ lotName: "inoculation day", dated: true, without: [2] },
  });
  expect(inOrder()).toEqual({ lots: [], lotName: "inoculation day", dated: true, without: [] });
});

test("a difference has a range on its front only where both ends are known, and its own value lies in it", () => {
  const front = (low?: number, high?: number) => {
    const ends = { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
    return differenceFront({ value: 5, ...ends, unit: "g" }, "dry, a good tray", "no gain", ["More."]);
  };
  expect(front(4, 7)).toEqual({
    short: ["More."],
    figure: { label: "dry, a good tray", value: 5, unit: "g", signed: true, from: 4, to: 7 },
    strip: { kind: "difference", unit: "g", value: 5, zero: "no gain", from: 4, to: 7 },
  });
  expect(front(6, 7).figure).toMatchObject({ from: 5, to: 7 });
  expect(front(3, 4).figure).toMatchObject({ from: 3, to: 5 });
  for (const bare of [front(), front(4), front(undefined, 7), front(-Infinity, 7), front(4, Infinity)]) {
    expect(bare.figure).not.toHaveProperty("from");
    expect(bare.strip).not.toHaveProperty("to");
  }
});

test("levels and things by name: amounts with their unit, columns of one's own with theirs", () => {
  const lamp = { ...freeFactor("lamp"), label: "“lamp”" };
  expect([levelLabel(doseFactor, "9"), levelLabel(strainFactor, "Amber")]).toEqual(["9 mL", "Amber"]);
  expect([levelName(doseFactor, "9"), levelName(strainFactor, "Amber")]).toEqual(["9 mL", "Amber"]);
  expect(levelName(lamp, "on")).toBe("“lamp” on");
  expect([theThing(doseFactor), theThing(lamp)]).toEqual(["the inoculum", "“lamp”"]);
  expect([inSentence("Cook"), inSentence("")]).toEqual(["cook", ""]);
  expect([capital("place 1"), capital("")]).toEqual(["Place 1", ""]);
  expect([inRow([]), inRow(["a"]), inRow(["a", "b"]), inRow(["a", "b", "c"])]).toEqual([
    "",
    "a",
    "a and b",
    "a, b and c",
  ]);
});

test("numbers of trays that are missing are named up to five, the others counted", () => {
  const said = (names: (string | undefined)[], rule = "tray-number-missing") => {
    const issue = { file: "a.csv", row: 2, column: "", raw: "", result: "", rule, severity: "warning" as const };
    const issues = names.map((name) => ({
      ...{ ...issue, reason: "", expected: "", action: "" },
      ...(name === undefined ? {} : { tray: name }),
    }));
    return missingTrays({ ...trialOfTrays([]), issues }).map((sentence) => sentence.join(""));
  };
  expect(said([])).toEqual([]);
  expect(said(["T3"], "another rule")).toEqual([]);
  expect(said([undefined])).toEqual([]);
  expect(said(["T3"])[0]).toMatch(/^One tray's number is missing from the sheets \(T3\): if it was filled/);
  expect(said(["T3", "T4"])[0]).toMatch(/^2 tray numbers are missing from the sheets \(T3, T4\): if they were filled/);
  expect(said(["1", "2", "3", "4", "5"])[0]).toContain("(1, 2, 3, 4, 5)");
  expect(said(["1", "2", "3", "4", "5", "6", "7"])[0]).toContain("(1, 2, 3, 4, 5 and 2 more)");
});

test("an outcome that cannot tell holds its reason, what would settle it, and nothing else unless given", () => {
  expect(noAnswer(["why"], ["how"])).toEqual({
    ...{ kind: "cannot-tell", reason: ["why"], wouldSettle: ["how"] },
    ...{ estimates: [], tables: [], charts: [], excluded: [], method: [], caveats: [] },
  });
  expect(noAnswer(["why"], ["how"], { caveats: [["but"]] })).toMatchObject({ caveats: [["but"]], charts: [] });
});

test("days are those between two dates, or as typed where one is missing", () => {
  const [from, to] = ["2026-03-01", "2026-03-15"];
  const colonised = (facts: Partial<Tray>) => colonisationDays.of(tray(facts));
  expect(colonised({ inoculatedOn: from, colonisedOn: to })).toBe(14);
  expect(colonised({ inoculatedOn: from, daysToColonise: 9 })).toBe(9);
  expect(colonised({ colonisedOn: to, daysToColonise: 9 })).toBe(9);
  expect(colonised({ inoculatedOn: from, colonisedOn: to, daysToColonise: 9 })).toBe(14);
  expect(colonised({ inoculatedOn: from, harvestedOn: to, daysToHarvest: 9 })).toBeUndefined();
  const harvested = (facts: Partial<Tray>) => harvestDays.of(tray(facts));
  expect(harvested({ inoculatedOn: from, harvestedOn: to })).toBe(14);
  expect(harvested({ inoculatedOn: from, daysToHarvest: 30 })).toBe(30);
  expect(harvested({ harvestedOn: to, daysToHarvest: 30 })).toBe(30);
  expect(harvested({ inoculatedOn: from, harvestedOn: to, daysToHarvest: 30 })).toBe(14);
  expect(harvested({ inoculatedOn: from, colonisedOn: to })).toBeUndefined();
});

test("the last date of a book is the latest of any tray and any kind", () => {
  const [early, late] = ["2026-03-01", "2026-04-01"];
  for (const column of ["inoculatedOn", "colonisedOn", "fruitingOn", "harvestedOn", "driedOn"] as const) {
    expect(lastDateOf([tray({ inoculatedOn: early }), tray({ [column]: late }), tray({ driedOn: early })])).toBe(late);
    expect(lastDateOf([tray({ [column]: late }), tray({})])).toBe(late);
  }
  const flushes = [
    { number: 1, harvestedOn: early },
    { number: 2, harvestedOn: late },
  ];
  expect(lastDateOf([tray({ harvestedOn: early, flushes })])).toBe(late);
  expect(lastDateOf([tray()])).toBeUndefined();
  expect(lastDateOf([])).toBeUndefined();
});

test("lost and finished trays by what became of them", () => {
  const which = (is: (one: Tray) => boolean) => outcomes.filter((outcome) => is(tray({ outcome })));
  expect(which(isLost)).toEqual(["contaminated", "failed", "discarded"]);
  expect(which(hasEnded)).toEqual(["good", "contaminated", "failed", "discarded"]);
});

test("yields are of dry weight where four good trays have one for five with a fresh weight; where dried goods are sold, two", () => {
  const weight = (dry: number, fresh: number, other: Partial<Tray> = {}, form?: Product["form"]) =>
    yieldWeightOf({
      products: form === undefined ? [] : [{ form } as Product],
      trays: [
        ...Array.from({ length: dry }, () => tray({ dryGrams: 30 })),
        ...Array.from({ length: fresh }, () => tray({ freshGrams: 300 })),
        tray(other),
      ],
    });
  expect(weight(0, 0)).toBeUndefined();
  expect(weight(0, 0, { outcome: "failed", dryGrams: 3, freshGrams: 30 })).toBeUndefined();
  expect(weight(1, 0)).toBe("dry");
  expect(weight(0, 1)).toBe("fresh");
  expect(weight(4, 5)).toBe("dry");
  expect(weight(3, 5)).toBe("fresh");
  expect(weight(4, 5, { outcome: "failed", freshGrams: 30 })).toBe("dry");
  expect([weight(2, 4, {}, "dried"), weight(2, 5, {}, "powder")]).toEqual(["dry", "fresh"]);
});

test("yields are of fresh weight where nothing else is sold, as far as the list of products could be read", () => {
  const trays = [tray({ freshGrams: 300, dryGrams: 30 })];
  const sold = (...forms: Product["form"][]) => forms.map((form) => ({ form }) as Product);
  const lost = { sheet: "products", name: "dried", reason: "", source: { file: "products.csv", row: 3 } } as const;
  expect(yieldWeightOf({ trays, products: sold("fresh") })).toBe("fresh");
  expect(yieldWeightOf({ trays, products: sold("fresh", "dried") })).toBe("dry");
  expect(yieldWeightOf({ trays, products: [] })).toBe("dry");
  expect(yieldWeightOf({ trays, products: sold("fresh"), unread: [{ ...lost, inUse: false }] })).toBe("dry");
  expect(yieldWeightOf({ trays: [tray({ dryGrams: 30 })], products: sold("fresh") })).toBe("dry");
});

test("a yield is of a good tray, or of a started one, where a lost tray gave nothing to sell; a pool gives its mean", () => {
  const of = (facts: Partial<Tray>, weight: "dry" | "fresh" = "dry") => [
    yieldPerGoodTray(weight).of(tray(facts)),
    yieldPerStartedTray(weight).of(tray(facts)),
  ];
  const weights = { dryGrams: 30, freshGrams: 300 };
  expect(of(weights)).toEqual([30, 30]);
  expect(of(weights, "fresh")).toEqual([300, 300]);
  expect(of({ ...weights, traysInPool: 3 })).toEqual([10, 10]);
  expect(of({ freshGrams: 300 })).toEqual([undefined, undefined]);
  for (const outcome of ["contaminated", "failed", "discarded"] as const)
    expect(of({ ...weights, outcome })).toEqual([undefined, 0]);
  for (const outcome of ["growing", "asked"] as const)
    expect(of({ ...weights, outcome })).toEqual([undefined, undefined]);
  expect([yieldPerGoodTray("dry").label, yieldPerStartedTray("fresh").unit]).toEqual(["dry yield per good tray", "g"]);
});

test("a tray is observed where its level and result are known and it was weighed by itself", () => {
  const dosed = { inoculumMillilitres: 5, dryGrams: 30, batch: "A" };
  const resultOf = (facts: Partial<Tray>, response = yieldPerGoodTray("dry")) =>
    observe([tray({ ...dosed, ...facts })], doseFactor, response).map(({ value }) => value);
  const seen = tray(dosed);
  expect(observe([seen], doseFactor, yieldPerGoodTray("dry"))).toEqual([{ tray: seen, arm: "5", value: 30 }]);
  expect(observe([seen], batchFactor, yieldPerGoodTray("dry"))).toMatchObject([{ arm: "A" }]);
  expect(resultOf({ outcome: "growing", daysToColonise: 9 }, colonisationDays)).toEqual([9]);
  expect(resultOf({ outcome: "failed" }, yieldPerStartedTray("dry"))).toEqual([0]);
  for (const out of [
    { outcome: "growing" },
    { outcome: "failed" },
    { inoculumMillilitres: undefined },
    { dryGrams: undefined },
    { traysInPool: 2 },
  ] as const) {
    expect(resultOf(out)).toEqual([]);
  }
  expect(resultOf({ outcome: "asked", daysToColonise: 9 }, colonisationDays)).toEqual([]);
});
