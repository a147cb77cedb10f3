import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { withAnsweredSettings } from "../../src/engine/answered-settings.ts";
import { sheetQuestions } from "../../src/engine/sheet-questions.ts";
import { choiceExample } from "../../src/page/choice-example.ts";
import { bytesSource } from "../../src/page/worker/bytes-source.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { sheet } from "../cleaning/book-of.ts";

const harvest = sheet("a.csv", "tray,dose ml,dry g,inoculated,outcome\n1,5,4,3/4/26,good\n2,10,5,3/4/26,good\n");

/** The settings a book has once the answers are in. */
async function settingsWith(sheets: SheetSource[], answers: [string, string][]) {
  const { sources, settingsCsv } = await withAnsweredSettings(sheets, answers);
  const { settings, issues } = await cleanBook(sources);
  return { settings, settingsCsv, issues: issues.filter(({ severity }) => severity !== "change"), sources };
}

describe("answers go into the settings sheet", () => {
  test("there is none: a new one", async () => {
    const { settings, settingsCsv } = await settingsWith([harvest], [["date_order", "month first"]]);
    expect(settings.dateOrder).toBe("month first");
    expect(settingsCsv).toBe("key,value,unit,note,sheet\r\ndate_order,month first,,answered\r\n");
  });
  test("there is one: its other lines stay, the same key gives way", async () => {
    const own = sheet(
      "settings.csv",
      "Key;Value;Unit;Note\nCurrency;USD;;dollars\nDate order;day first;;\ngrain_moisture;13;%;\n",
    );
    const { settings, settingsCsv, issues } = await settingsWith([harvest, own], [["date_order", "month first"]]);
    expect([settings.currency, settings.dateOrder, settings.grainMoisture]).toEqual(["USD", "month first", 0.13]);
    expect(settingsCsv).toMatch(
      /^key,value,unit,note,sheet\r\nCurrency,USD,,dollars,\r\ngrain_moisture,13,%,,\r\ndate_order,/,
    );
    expect(issues.filter(({ rule }) => rule === "setting-twice")).toEqual([]);
  });
  test("one of another shape, known by its contents", async () => {
    const wide = sheet("mine.csv", "key,value\nlocale,de-DE\n");
    const { settings } = await settingsWith([harvest, wide], [["currency", "GBP"]]);
    expect([settings.locale, settings.currency]).toEqual(["de-DE", "GBP"]);
    const acrossRow = sheet("settings.csv", "currency,grain_moisture\nUSD,13\n");
    const across = await settingsWith([harvest, acrossRow], [["date_order", "day first"]]);
    expect(across.settings).toMatchObject({ currency: "USD", grainMoisture: 0.13, dateOrder: "day first" });
  });
  test("no answer: the sheets are read as they are", async () => {
    const own = sheet("settings.csv", "key,value\ncurrency,USD\n");
    const { sources, settingsCsv } = await settingsWith([own, harvest], []);
    expect(sources).toEqual([own, harvest]);
    expect(settingsCsv).toBe("key,value,unit,note,sheet\r\ncurrency,USD,,,\r\n");
    expect((await settingsWith([harvest], [])).settings).toEqual(defaultSettings);
  });
  test("a formula in the sheet stays text in the file that is saved", async () => {
    const own = sheet("settings.csv", 'key,value,note\nbook_title,"=HYPERLINK(""x"")",\n');
    expect((await settingsWith([harvest, own], [])).settingsCsv).toMatch(/'=HYPERLINK/);
  });
});

test("what stands open is asked once for every cell that depends on it, and is not asked again once answered", async () => {
  const before = await settingsWith([harvest], []);
  expect(sheetQuestions(before.issues)).toMatchObject([
    { key: "date_order", state: "open", count: 2, columns: ["inoculated"], examples: ["3/4/26"] },
  ]);
  const after = await settingsWith([harvest], [["date_order", "day first"]]);
  expect(sheetQuestions(after.issues).filter(({ state }) => state === "open")).toEqual([]);
});

test("a cell asked about by itself says whose row it is and what is expected; a row that is not there is no cell", async () => {
  const lines = [...Array(24).keys()]
    .filter((at) => at !== 8)
    .map((at) => at + 1)
    .map((name) => `${name},C1,${name % 2 ? 5 : 10},${20 + name},good`);
  const trays = sheet(
    "a.csv",
    ["tray,cook,dose ml,dry g,outcome", ...lines].join("\n").replace(",23,", ",about a lot,"),
  );
  const costs = sheet(
    "costs.csv",
    "item,pack_price,pack_size,pack_unit,amount,amount_unit,per\nrye,28,25,kg,,g,tray\nbags,39,100,each,1,each,tray\n",
  );
  const { issues, columns, unread } = await cleanBook([trays, costs]);
  expect(issues.map(({ rule }) => rule)).toContain("tray-number-missing");
  const cells = sheetQuestions(issues, columns, unread).filter(({ state }) => state === "open");
  expect(cells.map(({ meaning, expected }) => [meaning, expected !== ""])).toEqual([
    ["What should “dry g” say? (a.csv, row 4, tray 3)", true],
    ["What should “amount” say? (costs.csv, row 2, rye)", true],
  ]);
});

test("what the sheets decided themselves can be looked at, after what stands open", async () => {
  const decided = sheet(
    "a.csv",
    "tray,dose,dry g,inoculated,temp,outcome\n1,5,4,23/4/26,22,good\n2,10,5,3/4/26,22,good\n",
  );
  const questions = sheetQuestions((await settingsWith([decided], [])).issues);
  const states = questions.map(({ state }) => state);
  expect(questions.find(({ key }) => key === "date_order")?.state).toBe("decided");
  expect(states).toEqual([...states].sort().reverse());
});

describe("what a cell would mean", () => {
  test.each([
    ["date_order", "day first", "3/4/26", "3/4/26 is 3 April 2026"],
    ["date_order", "month first", "3.4.2026", "3.4.2026 is 4 March 2026"],
    ["date_order", "year first", "26-03-04", "26-03-04 is 4 March 2026"],
    ["date_order", "month first", "13/4/26", ""],
    ["date_order", "day first", "soon", ""],
    ["decimal_mark", "comma", "1,250", "1,250 is 1.250"],
    ["decimal_mark", "point", "1,250 g", "1,250 is 1250"],
    ["mass_unit", "g", "12", ""],
  ])("%s, %s: %s", (key, choice, typed, expected) => expect(choiceExample(key, choice, typed)).toBe(expected));
});

test("bytes are read piece by piece, from the start each time", () => {
  const content = new Uint8Array(2_500_000).map((_, index) => index % 251);
  const source = bytesSource("a.csv", content);
  for (let time = 0; time < 2; time++) {
    const sizes = [...source.chunks()].map(({ length }) => length);
    expect(sizes).toEqual([1 << 20, 1 << 20, 2_500_000 - 2 * (1 << 20)]);
    expect([...source.chunks()].flatMap((piece) => [piece[0], piece.at(-1)])).toEqual(
      [0, (1 << 20) - 1, 1 << 20, (2 << 20) - 1, 2 << 20, 2_499_999].map((at) => at % 251),
    );
  }
  expect(source.size).toBe(2_500_000);
});
