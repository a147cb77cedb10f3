import { describe, expect, test } from "vitest";
import { bookMeasures } from "../../../src/cleaning/plausibility/book-measures.ts";
import { plausibilityRules } from "../../../src/cleaning/plausibility/index.ts";
import { weighedTrays } from "../../../src/cleaning/plausibility/weighed-trays.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import type { Tray } from "../../../src/records/tray.ts";
import { trayRecord } from "../../analyses/demo-records.ts";

const usual: Partial<Tray> = { inoculumMillilitres: 10, freshGrams: 200, dryGrams: 20, inoculatedOn: "2026-01-01" };
/** What the checks find in a tray among usual ones, each as "rule field raw [setting]". */
function foundIn(
  facts: Partial<Tray>,
  others: Partial<Tray>[] = Array.from({ length: 9 }, () => usual),
  settings: Partial<Settings> = {},
): string[] {
  const trays = [...others, facts].map((one, at) => trayRecord({ trayId: `T${at}`, ...one }));
  const book = bookMeasures(trays, weighedTrays(trays), { ...defaultSettings, ...settings });
  const at = trays.length - 1;
  return plausibilityRules.flatMap((rule) =>
    rule.check(trays[at]!, book, at).map(({ field, raw, setting, expected, action, reason }) => {
      expect([expected, action, reason]).not.toContain("");
      return `${rule.code} ${field} ${raw}${setting === undefined ? "" : ` [${setting}]`}`;
    }),
  );
}
const first = (tray: Partial<Tray>) => ({ inoculatedOn: "2026-01-01", ...tray });

// ranges are those of the settings (docs): 3 to 30 days to colonise, 10 to 130 to harvest, 8 to 30 °C, ratio 4 to 15
test.each<[string, Partial<Tray>, string[]]>([
  ["a usual one", usual, []],
  ["one of which nothing is known", {}, []],
  [
    "colonised soon",
    first({ colonisedOn: "2026-01-03" }),
    ["duration-range colonised_on 2 days [colonisation_days_low]"],
  ],
  [
    "colonised late",
    first({ colonisedOn: "2026-02-01" }),
    ["duration-range colonised_on 31 days [colonisation_days_high]"],
  ],
  [
    "colonised soon as typed",
    { daysToColonise: 2 },
    ["duration-range days_to_colonise 2 days [colonisation_days_low]"],
  ],
  ["harvested late as typed", { daysToHarvest: 131 }, ["duration-range days_to_harvest 131 days [harvest_days_high]"]],
  ["harvested soon", first({ harvestedOn: "2026-01-10" }), ["duration-range harvested_on 9 days [harvest_days_low]"]],
  [
    "soon and late",
    first({ colonisedOn: "2026-01-03", harvestedOn: "2026-05-12" }),
    [
      "duration-range colonised_on 2 days [colonisation_days_low]",
      "duration-range harvested_on 131 days [harvest_days_high]",
    ],
  ],
  [
    "late by the dates, as typed not",
    first({ colonisedOn: "2026-02-01", daysToColonise: 30 }),
    ["duration-range colonised_on 31 days [colonisation_days_high]"],
  ],
  [
    "days typed that the dates do not give",
    first({ colonisedOn: "2026-01-12", daysToColonise: 13, harvestedOn: "2026-02-20", daysToHarvest: 48 }),
    [
      "duration-disagrees days_to_colonise 13 days typed, 11 by the dates",
      "duration-disagrees days_to_harvest 48 days typed, 50 by the dates",
    ],
  ],
  [
    "days typed one off, either way",
    first({ colonisedOn: "2026-01-12", daysToColonise: 12, harvestedOn: "2026-02-20", daysToHarvest: 49 }),
    [],
  ],
  ["days typed without dates", { daysToColonise: 12, daysToHarvest: 50 }, []],
  [
    "colonised before it was inoculated",
    first({ colonisedOn: "2025-12-20" }),
    ["stages-backwards colonised_on 2025-12-20"],
  ],
  [
    "dried and harvested before it fruited",
    first({ fruitingOn: "2026-02-10", harvestedOn: "2026-02-05", driedOn: "2026-02-08" }),
    ["stages-backwards harvested_on 2026-02-05", "stages-backwards dried_on 2026-02-08"],
  ],
  ["all on one day", first({ colonisedOn: "2026-01-12", fruitingOn: "2026-01-12" }), []],
  ["cold", { fruitingCelsius: 7.9 }, ["fruiting-temperature-range fruiting_c 7.9 °C [fruiting_low_c]"]],
  ["warm", { fruitingCelsius: 30.1 }, ["fruiting-temperature-range fruiting_c 30.1 °C [fruiting_high_c]"]],
  ["as cold as is usual", { fruitingCelsius: 8 }, []],
  ["as warm as is usual", { fruitingCelsius: 30 }, []],
  [
    "heavier than its substrate",
    { freshGrams: 201, substrateWetGrams: 200 },
    ["fresh-above-substrate fresh_g 201 fresh, 200 substrate"],
  ],
  ["as heavy as its substrate", { freshGrams: 200, substrateWetGrams: 200 }, []],
  ["of no substrate", { freshGrams: 200, substrateWetGrams: 0 }, []],
  ["heavier than its substrate, lost", { freshGrams: 201, substrateWetGrams: 200, outcome: "failed" }, []],
  ["a pool heavier than one substrate", { freshGrams: 201, substrateWetGrams: 200, traysInPool: 2 }, []],
  ["of a date years later", { inoculatedOn: "2029-01-02" }, ["date-far-off inoculated_on 2029-01-02"]],
  ["of a date years earlier", { driedOn: "2022-12-31" }, ["date-far-off dried_on 2022-12-31"]],
  ["of a date three years later", { inoculatedOn: "2029-01-01" }, []],
  [
    "a ratio below what is usual",
    { freshGrams: 200, dryGrams: 51 },
    [
      "drying-ratio-range dry_g 200 fresh, 51 dry [drying_ratio_low]",
      "drying-ratio-unusual dry_g 200 fresh, 51 dry [outlier_z]",
    ].slice(0, 1),
  ],
  [
    "a ratio above what is usual",
    { freshGrams: 200, dryGrams: 13 },
    ["drying-ratio-range fresh_g 200 fresh, 13 dry [drying_ratio_high]"],
  ],
  ["a ratio on a limit", { freshGrams: 200, dryGrams: 50 }, []],
  ["more dry than fresh", { freshGrams: 20, dryGrams: 21 }, []],
])("the checks find in %s: %j", (_, facts, found) => {
  expect(foundIn(facts)).toEqual(found);
});

test("every check names settings that there are, each by its own code", () => {
  for (const { code, settings } of plausibilityRules)
    for (const setting of settings) expect(Object.keys(defaultSettings), code).toContain(setting);
  expect(new Set(plausibilityRules.map(({ code }) => code)).size).toBe(plausibilityRules.length);
});

test("a book without enough dates has no usual year", () => {
  expect(foundIn({ inoculatedOn: "2029-01-02" }, [{}, usual, usual])).toEqual([]);
});

// what differs by 15 % (ratios) or 25 % (weights) is of the scales and the mushrooms; beyond it a robust z above 3.5 is unusual
describe("far from the book's other trays", () => {
  const logs = [-3, -2, -1, 0, 0, 1, 2, 3].map((step) => step / 100);
  test("by its ratio, in a book of eight trays with both weights", () => {
    const others = (count: number) =>
      logs.slice(0, count).map((log) => ({ freshGrams: 200, dryGrams: 20 / Math.exp(log) }));
    const at = (ratio: number, count = 8) =>
      foundIn({ freshGrams: ratio * 20, dryGrams: 20 }, others(count)).map((text) => text.split(" ")[0]);
    expect(at(14.9)).toEqual(["drying-ratio-unusual"]);
    expect(at(6)).toEqual(["drying-ratio-unusual"]);
    expect(at(10.5)).toEqual([]);
    // 0.1 is beyond 3.5 deviations of a hundredth or two, and below 15 %
    expect(at(10 * Math.exp(0.13))).toEqual([]);
    expect(at(10 * Math.exp(0.15))).toEqual(["drying-ratio-unusual"]);
    expect(at(14.9, 7)).toEqual(["drying-ratio-unusual"]);
    expect(at(14.9, 6)).toEqual([]);
    expect(foundIn({ freshGrams: 280, dryGrams: 20 }, others(8), { outlierZ: 1000 })).toEqual([]);
  });
  test("by its days to colonise, counted or typed", () => {
    const days = [13, 14, 14, 14, 15, 15, 16];
    const others = days.map((daysToColonise) => ({ inoculumMillilitres: 10, daysToColonise }));
    const at = (facts: Partial<Tray>) => foundIn({ inoculumMillilitres: 10, ...facts }, others);
    expect(at({ daysToColonise: 21 })).toEqual(["colonised-unusual days_to_colonise 21 days [outlier_z]"]);
    expect(at({ daysToColonise: 17 })).toEqual([]);
    expect(at({ inoculatedOn: "2026-03-01", colonisedOn: "2026-03-07" })).toEqual([
      "colonised-unusual colonised_on 6 days [outlier_z]",
    ]);
    expect(at({ daysToColonise: 21, inoculumMillilitres: 20 })).toEqual([]);
    expect(at({ daysToColonise: 21, traysInPool: 2 })).toEqual([]);
  });
  test("by a weight, in a dose of six trays", () => {
    const others = (count: number) =>
      logs.slice(0, count).map((log) => ({ inoculumMillilitres: 10, freshGrams: 200 * Math.exp(log) }));
    const at = (freshGrams: number, count = 8, own: Partial<Tray> = {}) =>
      foundIn({ inoculumMillilitres: 10, freshGrams, ...own }, others(count));
    expect(at(300)).toEqual(["weight-unusual fresh_g 300 g [outlier_z]"]);
    expect(at(120)).toEqual(["weight-unusual fresh_g 120 g [outlier_z]"]);
    expect(at(240)).toEqual([]);
    expect(at(200 * 1.26)).toHaveLength(1);
    expect(at(300, 5)).toHaveLength(1);
    expect(at(300, 4)).toEqual([]);
    expect(at(300, 8, { inoculumMillilitres: 15 })).toEqual([]);
    expect(at(300, 8, { outcome: "failed" })).toEqual([]);
    expect(foundIn({ inoculumMillilitres: 10, freshGrams: 300 }, others(8), { outlierZ: 1000 })).toEqual([]);
    const both = logs.map((log) => ({ freshGrams: 200 * Math.exp(log), dryGrams: 20 * Math.exp(log) }));
    expect(foundIn({ freshGrams: 300, dryGrams: 30 }, both)).toEqual([
      "weight-unusual fresh_g 300 g [outlier_z]",
      "weight-unusual dry_g 30 g [outlier_z]",
    ]);
    // a dose of a few trays is held against how far the trays of all doses lie apart
    const few = [
      ...others(8),
      ...[0.02, -0.02].map((log) => ({ inoculumMillilitres: 15, freshGrams: 260 * Math.exp(log) })),
    ];
    expect(foundIn({ inoculumMillilitres: 15, freshGrams: 400 }, few)).toEqual([
      "weight-unusual fresh_g 400 g [outlier_z]",
    ]);
    expect(foundIn({ freshGrams: 200, dryGrams: 29 }, both).filter((text) => text.includes("weight-unusual"))).toEqual([
      "weight-unusual dry_g 29 g [outlier_z]",
    ]);
  });
});

// what a careful person would ask about: common practice, no source. The tray has 210 g fresh and 21 g dry
test.each([
  "+ 40 g second pick",
  "+40g",
  "2nd flush 65g",
  "flush of 65 grams",
  "2nd flush: 0,2 kg",
  "pick 1.5 oz",
  "flush 2 lb",
  "flush 65 gr.",
  "flush 65 Gramm",
  "flush (65g)",
  "flush 65 g and 211 g",
])("the weight in “%s” is counted in no column", (note) => {
  expect(foundIn({ freshGrams: 210, dryGrams: 21, note })).toEqual([`weight-in-note note ${note}`]);
});
test.each([
  "flush 210 g",
  "flush 21 g dry, 210 g fresh",
  "flush 209.5 g",
  "flush 140 g + 70 g",
  "+ 210 g",
  "flush 2",
  "65 g",
  "flush on day 65",
  "flush 65gb",
  "flush x65 g",
  "flush 65 ml",
  "flush",
  "moved",
])("“%s” says nothing that is not counted", (note) => {
  expect(foundIn({ freshGrams: 210, dryGrams: 21, note })).toEqual([]);
});
test("a weight of one of its flushes is counted", () => {
  const flushes = [
    { number: 1, freshGrams: 140, dryGrams: 14 },
    { number: 2, freshGrams: 70 },
  ];
  expect(foundIn({ freshGrams: 210, flushes, note: "flush 70 g" })).toEqual([]);
  expect(foundIn({ freshGrams: 210, flushes, note: "flush 14 g" })).toEqual([]);
  expect(foundIn({ freshGrams: 210, flushes, note: "flush 71 g" })).toHaveLength(1);
  expect(foundIn({ freshGrams: 210, flushes, note: "flush 70.5 g" })).toEqual([]);
});
