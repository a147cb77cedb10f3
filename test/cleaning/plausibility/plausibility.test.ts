import { describe, expect, test } from "vitest";
import { whyImpossible } from "../../../src/cleaning/plausibility/impossible-value.ts";
import { plausibilityRules } from "../../../src/cleaning/plausibility/index.ts";
import { robustCentre, robustZ } from "../../../src/cleaning/plausibility/robust-centre.ts";
import { settingDefinitions } from "../../../src/records/setting-definitions.ts";
import { harvestOf, trayOf } from "../book-of.ts";

const header =
  "tray_id,inoculum_ml,substrate_wet_g,fruiting_c,inoculated_on,colonised_on,days_to_colonise,harvested_on,fresh_g,dry_g\n";
const usual = [200, 210, 190, 205, 195, 208, 192, 201].map(
  (fresh, index) => `U${index},10,900,18,2026-01-01,2026-01-12,,2026-03-01,${fresh},${fresh / 10 + (index % 3) / 2}`,
);

/** The tray of one row among usual ones, and what the book says of it. */
async function rowAmongUsual(row: string, settings?: string) {
  const book = await harvestOf(`${header}${[...usual, row].join("\n")}\n`, settings);
  return { tray: trayOf(book, "X"), said: book.issues.filter(({ tray }) => tray === "X") };
}

/** What cannot be at all is an error; what is only unusual is a flag. */
const hard = new Set(["stages-backwards"]);

describe("checks of whole trays", () => {
  test.each([
    ["date-far-off", "X,10,900,18,2031-01-01,2031-01-12,,2031-03-01,200,20"],
    ["stages-backwards", "X,10,900,18,2026-03-02,2026-03-12,,2026-03-01,200,20"],
    ["stages-backwards", "X,10,900,18,2026-01-12,2026-01-01,,2026-03-01,200,20"],
    ["duration-disagrees", "X,10,900,18,2026-01-01,2026-01-12,20,2026-03-01,200,20"],
    ["drying-ratio-range", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,200,80"],
    ["drying-ratio-range", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,200,10"],
    ["drying-ratio-unusual", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,200,40"],
    ["weight-unusual", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,700,70"],
    ["fresh-above-substrate", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,950,95"],
    ["duration-range", "X,10,900,18,2026-01-01,2026-01-02,,2026-03-01,200,20"],
    ["duration-range", "X,10,900,18,2026-01-01,2026-01-12,,2026-12-01,200,20"],
    ["fruiting-temperature-range", "X,10,900,35,2026-01-01,2026-01-12,,2026-03-01,200,20"],
  ])("%s: %s", async (code, row) => {
    const { tray, said } = await rowAmongUsual(row);
    expect(tray.flags).toContain(code);
    const entry = said.find(({ rule }) => rule === code)!;
    expect(entry).toMatchObject({ severity: hard.has(code) ? "error" : "warning", row: 10 });
    expect(entry.action).not.toBe("");
    expect(plausibilityRules.filter((rule) => rule.code === code)).toHaveLength(1);
    // flags never change a number
    const [, , , , inoculated, colonised, , harvested, fresh, dry] = row.split(",");
    expect([tray.inoculatedOn, tray.colonisedOn, tray.harvestedOn]).toEqual([inoculated, colonised, harvested]);
    expect([String(tray.freshGrams), String(tray.dryGrams)]).toEqual([fresh, dry]);
  });

  test.each([
    ["dry-above-fresh", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,20,200", [undefined, undefined]],
    ["weight-out-of-reach", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,7087,", [undefined, undefined]],
    ["weight-out-of-reach", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,0.2,", [undefined, undefined]],
    ["weight-slip", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,2000,", [undefined, undefined]],
    ["weight-slip", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,7,", [undefined, undefined]],
    ["dry-zero", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,205,0", [205, undefined]],
  ])("a weight that no tray can have is set aside, and the tray stays picked: %s", async (code, row, weights) => {
    const { tray, said } = await rowAmongUsual(row);
    expect(tray.flags).toContain(code);
    expect([tray.freshGrams, tray.dryGrams]).toEqual(weights);
    expect(tray.outcome).toBe("good");
    expect(said.find(({ rule }) => rule === code)?.action).not.toBe("");
  });

  test("a slip of ten is seen with five trays a dose, and a pool is judged by its trays", async () => {
    const rows = [250, 260, 2600, 240, 255].map((fresh, index) => `A${index},10,${fresh},1`);
    const book = await harvestOf(`tray_id,inoculum_ml,fresh_g,trays_in_pool\n${rows.join("\n")}\nP,10,1500,6\n`);
    expect(trayOf(book, "A2")).toMatchObject({ flags: ["weight-slip"] });
    expect(trayOf(book, "A2").freshGrams).toBeUndefined();
    expect(trayOf(book, "P")).toMatchObject({ freshGrams: 1500, flags: [] });
  });

  // what one tray can give; common practice, no source
  test.each([
    ["fresh_g", 5000, 1, true],
    ["fresh_g", 5001, 1, false],
    ["fresh_g", 30_000, 6, true],
    ["fresh_g", 30_006, 6, false],
    ["fresh_g", 0.5, 1, true],
    ["fresh_g", 0.4, 1, false],
    ["dry_g", 600, 1, true],
    ["dry_g", 601, 1, false],
    ["dry_g", 0.05, 1, true],
    ["dry_g", 0.04, 1, false],
  ])("%s of %d from %d trays is used: %s", async (field, grams, pool, used) => {
    const book = await harvestOf(`tray_id,inoculum_ml,${field},trays_in_pool\nA,10,${grams},${pool}\n`);
    const { freshGrams, dryGrams } = trayOf(book, "A");
    expect(freshGrams ?? dryGrams).toBe(used ? grams : undefined);
    expect(book.issues.some(({ rule }) => rule === "weight-out-of-reach")).toBe(!used);
  });

  // 200 g is usual: seven times as much, 1400, or a fifteenth, 13.3, is a slip; common practice, no source
  test("a slip is seven times the usual weight or a fifteenth of it, beside three trays of its kind", async () => {
    const isSlip = async (grams: number, others = 3, facts = ["pearl", "bag", 10]) => {
      const rows = Array.from({ length: others }, (_, at) => `U${at},pearl,bag,10,200`);
      const text = `tray_id,strain,container,inoculum_ml,fresh_g\n${rows.join("\n")}\nX,${facts.join(",")},${grams}\n`;
      return trayOf(await harvestOf(text), "X").freshGrams === undefined;
    };
    expect(await Promise.all([1400, 1399, 13.3, 13.4].map((grams) => isSlip(grams)))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect(await isSlip(1400, 2)).toBe(false);
    expect(await isSlip(1400, 3, ["blue", "bag", 10])).toBe(false);
    expect(await isSlip(1400, 3, ["pearl", "bucket", 10])).toBe(false);
    // another dose is held against all trays of the kind
    expect(await isSlip(1400, 3, ["pearl", "bag", 20])).toBe(true);
    expect(await isSlip(1399, 3, ["pearl", "bag", 20])).toBe(false);
  });

  test("where weights scatter, a slip lies four robust deviations away as well", async () => {
    const isSlip = async (grams: number) => {
      const rows = [100, 200, 400, 800].map((fresh, at) => `U${at},10,${fresh}`);
      return (
        trayOf(await harvestOf(`tray_id,inoculum_ml,fresh_g\n${rows.join("\n")}\nX,10,${grams}\n`), "X").freshGrams ===
        undefined
      );
    };
    // centre 400, median deviation one doubling: 4 / 0.6745 doublings are 61 times
    expect(await isSlip(4900)).toBe(false);
  });

  test("grams under a header of ounces are asked about, not used", async () => {
    const book = await harvestOf("tray,dose ml,fresh oz\nA,10,250\nB,10,260\nC,20,270\nD,20,280\n");
    expect(book.trays.map(({ freshGrams, outcome }) => [freshGrams, outcome])).toEqual(
      Array.from({ length: 4 }, () => [undefined, "good"]),
    );
    expect(book.issues.find(({ rule }) => rule === "weight-out-of-reach")?.action).toContain(
      "harvests/one.csv,fresh oz,fresh_g,g",
    );
  });

  test("a good cook is not flagged, an odd tray in it is", async () => {
    const cook = (name: string, times: number) =>
      [200, 210, 190, 205, 195, 208].map((fresh, index) => `${name}${index},${name},10,${Math.round(fresh * times)}`);
    const rows = [...cook("a", 1), ...cook("b", 1.02), ...cook("c", 1.6), "odd,c,10,120"];
    const book = await harvestOf(`tray_id,batch,inoculum_ml,fresh_g\n${rows.join("\n")}\n`);
    expect(book.trays.filter(({ flags }) => flags.length > 0).map(({ trayId }) => trayId)).toEqual(["odd"]);
  });

  test("every check names the settings it looks at", () => {
    const known = new Set<string>(settingDefinitions.map(({ property }) => property));
    for (const { code, settings, check } of plausibilityRules) {
      for (const property of settings) expect(known.has(property), `${code} ${property}`).toBe(true);
      for (const property of known) {
        if (new RegExp(`\\b${property}\\b`).test(check.toString())) expect(settings, code).toContain(property);
      }
    }
  });

  test("a usual tray has no flag", async () => {
    const { tray, said } = await rowAmongUsual("X,10,900,18,2026-01-01,2026-01-12,11,2026-03-01,203,20");
    expect(tray.flags).toEqual([]);
    expect(said).toEqual([]);
  });

  test("the trade ranges are settings", async () => {
    const row = "X,10,900,35,2026-01-01,2026-01-12,,2026-03-01,200,20";
    expect((await rowAmongUsual(row, "fruiting_high_c,36")).tray.flags).toEqual([]);
  });

  // the ranges are those of the settings (docs/settings.md); what lies on a limit is within it
  test.each([
    ["colonised after 3 days", "X,10,900,18,2026-01-01,2026-01-04,,2026-03-01,200,20", []],
    [
      "colonised after 2",
      "X,10,900,18,2026-01-01,2026-01-03,,2026-03-01,200,20",
      ["duration-range colonisation_days_low"],
    ],
    ["colonised after 30", "X,10,900,18,2026-01-01,2026-01-31,,2026-03-01,200,20", []],
    [
      "colonised after 31",
      "X,10,900,18,2026-01-01,2026-02-01,,2026-03-01,200,20",
      ["duration-range colonisation_days_high"],
    ],
    ["typed as 31 days", "X,10,900,18,2026-01-01,,31,2026-03-01,200,20", ["duration-range colonisation_days_high"]],
    ["picked after 10", "X,10,900,18,2026-01-01,2026-01-06,,2026-01-11,200,20", []],
    ["picked after 9", "X,10,900,18,2026-01-01,2026-01-06,,2026-01-10,200,20", ["duration-range harvest_days_low"]],
    ["picked after 130", "X,10,900,18,2026-01-01,2026-01-12,,2026-05-11,200,20", []],
    ["picked after 131", "X,10,900,18,2026-01-01,2026-01-12,,2026-05-12,200,20", ["duration-range harvest_days_high"]],
    ["days typed one off", "X,10,900,18,2026-01-01,2026-01-12,12,2026-03-01,200,20", []],
    ["days typed two off", "X,10,900,18,2026-01-01,2026-01-12,13,2026-03-01,200,20", ["duration-disagrees "]],
    ["fruited at 8 °C", "X,10,900,8,2026-01-01,2026-01-12,,2026-03-01,200,20", []],
    [
      "fruited at 7",
      "X,10,900,7,2026-01-01,2026-01-12,,2026-03-01,200,20",
      ["fruiting-temperature-range fruiting_low_c"],
    ],
    ["fruited at 30", "X,10,900,30,2026-01-01,2026-01-12,,2026-03-01,200,20", []],
    [
      "fruited at 31",
      "X,10,900,31,2026-01-01,2026-01-12,,2026-03-01,200,20",
      ["fruiting-temperature-range fruiting_high_c"],
    ],
    ["as much fresh as substrate", "X,10,200,18,2026-01-01,2026-01-12,,2026-03-01,200,20", []],
    ["a stage on the day of the one before", "X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,200,20", []],
  ])("%s", async (_, row, flags) => {
    const { said } = await rowAmongUsual(row);
    expect(said.map(({ rule, setting = "" }) => `${rule} ${setting}`)).toEqual(flags);
  });

  test("a ratio of fresh to dry on a limit of the range is within it", async () => {
    const at = async (dry: number) =>
      (await rowAmongUsual(`X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,210,${dry}`)).said
        .filter(({ rule }) => rule === "drying-ratio-range")
        .map(({ setting, column, reason }) => [setting, column, reason]);
    expect(await at(210 / 4)).toEqual([]);
    expect(await at(210 / 15)).toEqual([]);
    expect(await at(52.6)).toEqual([["drying_ratio_low", "dry_g", "fresh over dry is below 4"]]);
    expect(await at(13.9)).toEqual([["drying_ratio_high", "fresh_g", "fresh over dry is above 15"]]);
  });

  test("what the log says of an unusual weight has its direction right", async () => {
    const of = async (fresh: number) =>
      (await rowAmongUsual(`X,10,900,18,2026-01-01,2026-01-12,,2026-03-01,${fresh},`)).said.map(
        ({ rule, reason, expected }) => `${rule}: ${reason.split(" those ")[0]}; ${expected}`,
      );
    expect(await of(420)).toEqual(["weight-unusual: the fresh weight is far above; near 201 g"]);
    expect(await of(100)).toEqual(["weight-unusual: the fresh weight is far below; near 200 g"]);
    expect((await of(2000))[0]).toContain("weight-slip: many times the fresh weight");
    expect((await of(7))[0]).toContain("weight-slip: a small part of the fresh weight");
  });

  test("a date is far off beyond three years from the middle of a book of four dates", async () => {
    const flags = async (count: number, date: string) => {
      const rows = Array.from({ length: count }, (_, at) => `U${at},10,2026-01-01,200`);
      const book = await harvestOf(
        `tray_id,inoculum_ml,inoculated_on,fresh_g\n${[...rows, `X,10,${date},200`].join("\n")}\n`,
      );
      return book.issues.filter(({ rule }) => rule === "date-far-off").map(({ reason }) => reason);
    };
    expect(await flags(3, "2029-01-01")).toEqual([]); // 1096 days
    expect(await flags(3, "2029-01-02")).toEqual(["years later than the book's other dates"]);
    expect(await flags(3, "2022-12-30")).toEqual(["years earlier than the book's other dates"]);
    expect(await flags(2, "2029-01-02")).toEqual([]);
  });

  test("a lone dose is a slip where it is another one's tenth or tenfold, and every other dose has several trays", async () => {
    const slips = async (...doses: number[]) =>
      (
        await harvestOf(`tray_id,inoculum_ml,fresh_g\n${doses.map((dose, at) => `T${at},${dose},200`).join("\n")}\n`)
      ).trays
        .filter(({ flags }) => flags.includes("dose-slip"))
        .map(({ inoculumMillilitres }) => inoculumMillilitres);
    expect(await slips(5, 5, 10, 10, 100)).toEqual([100]);
    expect(await slips(5, 5, 10, 10, 0.5)).toEqual([0.5]);
    expect(await slips(5, 5, 10, 10, 15)).toEqual([]);
    expect(await slips(5, 5, 10, 100)).toEqual([]); // two lone doses: steps of ten may be meant
    expect(await slips(10, 10, 100)).toEqual([]); // nothing beside the two that could be a plan
  });

  test("several dry weights too heavy by the same suggest a container", async () => {
    const tared = [200, 180, 220, 190].map(
      (fresh, index) => `C${index},10,900,18,2026-01-01,2026-01-12,,2026-03-01,${fresh},${fresh / 10 + 90}`,
    );
    const book = await harvestOf(`${header}${[...usual, ...tared].join("\n")}\n`);
    const said = book.issues.filter(({ tray, rule }) => tray === "C0" && rule === "drying-ratio-range");
    expect(said[0]!.reason).toContain("container");
    expect(trayOf(book, "C0").dryGrams).toBe(110);
  });
});

test("median and median absolute deviation", () => {
  // Iglewicz & Hoaglin's modified z: 0.6745 (x - median) / MAD; by hand for these five
  const centre = robustCentre([100, 2, 3, 1, 4])!;
  expect(centre).toEqual({ median: 3, deviation: 1, count: 5 });
  expect(robustZ(100, centre)).toBeCloseTo(65.4265, 10);
  expect(robustCentre([4, 1, 3, 2])).toEqual({ median: 2.5, deviation: 1, count: 4 });
  expect(robustCentre([])).toBeUndefined();
  expect(robustZ(5, { median: 3, deviation: 0, count: 9 })).toBe(0);
});

test.each([
  ["fresh_g", "mass", -1, true],
  ["fresh_g", "mass", 0, false],
  ["fruiting_c", "temperature", 72, true],
  ["fruiting_c", "temperature", -12, true],
  ["fruiting_c", "temperature", 18, false],
  ["light_hours", "hours", 25, true],
  ["final_moisture_pct", "percent", 1.2, true],
  ["flush", "count", 0, true],
  ["days_to_harvest", "days", -3, true],
  ["fruiting_c", "temperature", -10, false],
  ["fruiting_c", "temperature", 60, false],
  ["light_hours", "hours", 24, false],
  ["final_moisture_pct", "percent", 1, false],
  ["days_to_harvest", "days", 3650, false],
  ["days_to_harvest", "days", 3651, true],
  ["flush", "count", 1, false],
  ["flush", "count", 30, false],
  ["flush", "count", 31, true],
  ["trays_in_pool", "count", 0, true],
  ["trays_in_pool", "count", 500, false],
  ["culture_generation", "count", 0, false],
  ["spawn_pct", "percent", 0, false],
  ["spawn_pct", "percent", 0.004, true],
  ["spawn_pct", "percent", 0.005, false],
  ["substrate_wet_g", "mass", 14, true],
  ["substrate_wet_g", "mass", 15, false],
  ["grain_dry_g", "mass", 4, true],
  ["grain_dry_g", "mass", 5, false],
  ["inoculum_ml", "volume", 1000, false],
  ["inoculum_ml", "volume", 1001, true],
  ["fresh_g", "mass", 1_000_000, false],
  ["fresh_g", "mass", 1_000_001, true],
] as const)("%s (%s) of %d is impossible: %s", (field, kind, value, impossible) => {
  expect(whyImpossible(field, kind, value) !== "").toBe(impossible);
});
