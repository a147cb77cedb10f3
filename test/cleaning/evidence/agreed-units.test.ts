import { describe, expect, test } from "vitest";
import { cellTraits } from "../../../src/cleaning/evidence/cell-traits.ts";
import { isLikely, temperatureScale } from "../../../src/cleaning/evidence/likely-ranges.ts";
import { bookOf, rulesOf } from "../book-of.ts";
import { agreedBy } from "./agreed-by.ts";

const column = (header: string, ...cells: (string | number)[]): string => [header, ...cells, ""].join("\n");
const times = (count: number, cell: string | number): (string | number)[] => Array.from({ length: count }, () => cell);

const reach = "in any other unit most of them would be out of reach for one tray";
const ratio = "any other unit would make the drying ratio impossible";
const stated = "every cell of the column that states a unit states this one";
const elsewhere = "every other weight in the sheet is in it";

/** Ounces and pounds in g: 16 CFR 500.19 (28.349523125, 453.59237). What is possible for a tray: common practice, no source. */
describe("weights typed without a unit", () => {
  test.each([
    ["reach", "Fresh wt,Dry wt\n310,31\n280,27\n", `Fresh wt g ${reach}|Dry wt g ${reach}`],
    ["reach, of kg", column("Substrate wt", 0.1, 0.2), `Substrate wt kg ${reach}`],
    ["reach of nine in ten", column("Fresh wt", ...times(9, 310), 90000), `Fresh wt g ${reach}`],
    ["reach of eight in ten", column("Fresh wt", ...times(8, 310), 90000, 90000), "Fresh wt ?"],
    ["0 tells nothing", column("Fresh wt", 310, 0, 0, 0), `Fresh wt g ${reach}`],
    ["a doubtful number counts", column("Fresh wt", "~310"), `Fresh wt g ${reach}`],
    ["no number", column("Fresh wt", "none"), "Fresh wt ?"],
    ["ratio", "Fresh wt,Dry wt (g)\n11,31\n10,27\n", `Fresh wt oz ${ratio}|Dry wt (g) g`],
    ["ratio of 2, which is possible", "Fresh (g),Dry wt\n8,4\n", `Fresh (g) g|Dry wt g ${ratio}`],
    ["ratio below 2", "Fresh (g),Dry wt\n7.9,4\n", `Fresh (g) g|Dry wt g ${elsewhere}`],
    ["ratio of 25, which is possible", "Fresh (g),Dry wt\n100,4\n", `Fresh (g) g|Dry wt g ${ratio}`],
    ["ratio above 25", "Fresh (g),Dry wt\n100.1,4\n", `Fresh (g) g|Dry wt g ${elsewhere}`],
    ["ratio of oz", "Fresh (g),Dry wt\n226.8,4\n", `Fresh (g) g|Dry wt oz ${ratio}`],
    ["ratio in nine of ten rows", `Fresh (g),Dry wt\n${"226.8,4\n".repeat(9)}8,4\n`, `Fresh (g) g|Dry wt oz ${ratio}`],
    [
      "ratio in eight of ten rows",
      `Fresh (g),Dry wt\n${"226.8,4\n".repeat(8)}8,4\n8,4\n`,
      `Fresh (g) g|Dry wt g ${elsewhere}`,
    ],
    ["no ratio where one is 0", "Fresh (g),Dry wt\n0,4\n226.8,0\n", `Fresh (g) g|Dry wt g ${elsewhere}`],
    [
      "ratio, told from a third weight behind",
      "Fresh (g),Dry wt,Substrate (g)\n226.8,4,3000\n",
      `Fresh (g) g|Dry wt oz ${ratio}|Substrate (g) g`,
    ],
    [
      "ratio, whatever rows have no two weights",
      "Fresh (g),Dry wt\n226.8,4\n0,4\n226.8,0\n226.8,\n,4\n",
      `Fresh (g) g|Dry wt oz ${ratio}`,
    ],
    ["ratio of each unit", "Fresh wt,Dry wt\n11,1.1\n11 oz,1\n", `Fresh wt oz ${stated}|Dry wt oz ${elsewhere}`],
    [
      "no ratio of one flush to the whole",
      "Flush 1 g,Flush 2 g,Dry wt\n226.8,226.8,4\n",
      `Flush 1 g g|Flush 2 g g|Dry wt g ${elsewhere}`,
    ],
    ["dry weights alone", column("Dry wt", 31), `Dry wt g ${reach}`],
    ["stated in some cells", column("Fresh wt", 11, "11 oz", 12), `Fresh wt oz ${stated}`],
    ["two units stated", column("Fresh wt", 11, "11 oz", "300 g"), "Fresh wt ?"],
    ["stated, and out of reach", column("Fresh wt", 11, "1 lb"), "Fresh wt ?"],
    ["elsewhere", "Fresh wt,Substrate wt\n11,20 oz\n", `Fresh wt oz ${elsewhere}|Substrate wt ?`],
    [
      "elsewhere, whatever the column itself says",
      "Fresh wt,Substrate wt\n11,20 oz\n1 lb,20 oz\n",
      `Fresh wt oz ${elsewhere}|Substrate wt ?`,
    ],
    ["elsewhere under a header", "Fresh wt,Substrate (oz)\n11,20\n", `Fresh wt oz ${elsewhere}|Substrate (oz) oz`],
    ["a header over no number tells nothing", "Fresh wt,Substrate (oz)\n11,\n", "Fresh wt ?|Substrate (oz) oz"],
    [
      "elsewhere in two units",
      "Fresh wt,Substrate (oz),Grain (g)\n11,20,300\n",
      "Fresh wt ?|Substrate (oz) oz|Grain (g) g",
    ],
    [
      "elsewhere, some cells of which state another",
      "Fresh g,Substrate wt\n200,40\n0.2 kg,40\n",
      `Fresh g g|Substrate wt oz ${reach}`,
    ],
    [
      "the other flush, some cells of which state another, and the header of another weight",
      "1st flush fresh g,2nd flush fresh,Dry oz\n200,90\n0.2 kg,90\n,,1\n",
      "1st flush fresh g g|2nd flush fresh g the other flushes are in it|Dry oz oz",
    ],
    ["elsewhere, and out of reach", "Substrate wt,Fresh (g)\n2.5,310\n", "Substrate wt ?|Fresh (g) g"],
    ["nothing", column("Fresh wt", 11), "Fresh wt ?"],
  ])("%s", async (_, text, expected) => {
    expect(await agreedBy(text)).toBe(expected);
  });

  test("the settings come before what cells tell, a header before the settings", async () => {
    expect(await agreedBy("Fresh wt,Dry wt (g)\n310,31\n", { massUnit: "oz" })).toBe("Fresh wt oz|Dry wt (g) g");
  });
});

describe("volumes typed without a unit", () => {
  const fits = "liquid culture is measured in mL, and the amounts fit";
  test.each([
    ["usual amounts", column("Inoculum", 10, 5), `Inoculum mL ${fits}`],
    ["nine in ten", column("Inoculum", ...times(9, 10), 500), `Inoculum mL ${fits}`],
    ["eight in ten", column("Inoculum", ...times(8, 10), 500, 500), "Inoculum ?"],
    [
      "stated in some cells",
      column("Inoculum", 10, "5 mL"),
      "Inoculum mL the cells of the column that state a unit state it",
    ],
    ["another stated", column("Inoculum", 10, "2 tsp"), "Inoculum ?"],
    ["0 alone", column("Inoculum", 0), "Inoculum ?"],
    ["too much", column("Inoculum", 500), "Inoculum ?"],
  ])("%s", async (_, text, expected) => {
    expect(await agreedBy(text)).toBe(expected);
  });
  test("the settings come first", async () => {
    expect(await agreedBy(column("Inoculum", 10), { volumeUnit: "tsp" })).toBe("Inoculum tsp");
  });
});

describe("temperatures without a scale: where mushrooms grow, 0 to 40 °C", () => {
  const cold = "as °F they would be frost";
  const hot = "as °C they would cook the mushrooms";
  test.each([
    ["°C", column("Temp", 18, 38), `Temp °C ${cold}`],
    ["°F", column("Temp", 64, 38), `Temp °F ${hot}`],
    ["either", column("Temp", 38), "Temp ?"],
    ["neither", column("Temp", 150), "Temp ?"],
    ["0 tells nothing", column("Temp", 0), "Temp ?"],
    ["both", column("Temp", 18, 64), "Temp mixed"],
    ["a degree without its scale is no unit", column("Temp", "64 deg", "62°"), `Temp °F ${hot}`],
    ["stated", column("Temp", "64 °F"), "Temp ?"],
  ])("%s", async (_, text, expected) => {
    expect(await agreedBy(text)).toBe(expected);
  });
  test("the settings come first", async () => {
    expect(await agreedBy(column("Temp", 18, 64), { temperatureUnit: "F" })).toBe("Temp °F");
  });
  test.each([
    [-0.1, "neither"],
    [0, "C"],
    [35.9, "C"],
    [36, "either"],
    [40, "either"],
    [40.1, "F"],
    [104, "F"],
    [104.1, "neither"],
  ])("%f is of %s", (bare, scale) => {
    expect(temperatureScale(bare)).toBe(scale);
  });
});

test.each([
  ["percent", column("Moisture", 12, 0.5), {}, "Moisture % some are above 1"],
  [
    "shares",
    column("Moisture", 0.12, 1),
    {},
    "Moisture shares of one as percentages they would be drier than anything dried in air",
  ],
  ["0 alone", column("Moisture", 0), {}, "Moisture ?"],
  ["by the settings", column("Moisture", 12), { percentStyle: "fraction" as const }, "Moisture fraction"],
  ["with its sign", column("Moisture", "12 %"), {}, "Moisture ?"],
])("percentages without a sign: %s", async (_, text, settings, expected) => {
  expect(await agreedBy(text, settings)).toBe(expected);
});

test("what is possible for one tray has two ends that are possible too, and other things have none", () => {
  const ends = {
    substrate_wet_g: [50, 15_000],
    fresh_g: [4, 3_000],
    dry_g: [0.4, 300],
    inoculum_ml: [0.05, 300],
    grain_dry_g: [10, 6_000],
    supplement_g: [0.2, 800],
    spawn_g: [1, 6_000],
    added_liquid_ml: [0.05, 3_000],
  } as const;
  for (const [field, [low, high]] of Object.entries(ends) as [keyof typeof ends, readonly [number, number]][]) {
    expect([low * 0.999, low, high, high * 1.001].map((amount) => isLikely(field, amount))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  }
  expect(isLikely("outcome", 1e9)).toBe(true);
});

test.each([
  ["310", "mass", { decimalMark: "", bare: 310 }],
  ["~310", "mass", { decimalMark: "", bare: 310 }],
  ["12,5", "mass", { decimalMark: ",", bare: 12.5 }],
  ["12,5 g", "mass", { decimalMark: ",", unit: "g" }],
  ["310 grams", "mass", { decimalMark: "", unit: "g" }],
  ["310g.", "mass", { decimalMark: "", unit: "g" }],
  ["310 g?", "mass", { decimalMark: "", unit: "g" }],
  ["(310 g)", "mass", { decimalMark: "", unit: "g" }],
  ["2 fl. oz", "volume", { decimalMark: "", unit: "fl oz" }],
  ["2 oz", "volume", { decimalMark: "" }],
  ["12 %", "percent", { decimalMark: "", unit: "%" }],
  ["64 °F", "temperature", { decimalMark: "", unit: "°F" }],
  ["64.5 deg", "temperature", { decimalMark: ".", bare: 64.5 }],
  ["64°", "temperature", { decimalMark: "", bare: 64 }],
  ["64 degrees?", "temperature", { decimalMark: "", bare: 64 }],
  ["64 degrees", "mass", { decimalMark: "" }],
  ["40-50", "mass", { decimalMark: "" }],
  ["contam", "mass", { decimalMark: "" }],
  ["", "mass", { decimalMark: "" }],
] as const)("%j in a column of %s tells %j", (cell, kind, traits) => {
  expect(cellTraits(cell, kind)).toEqual(traits);
});

describe("weights that are all small are asked about: are they ounces?", () => {
  const header = "tray_id,Fresh (g),Flush\n";
  const asks = async (text: string, files: Record<string, string> = {}): Promise<boolean> =>
    rulesOf(await bookOf({ "a, b.csv": text, ...files })).includes("weights-all-small");
  test.each([
    ["three trays of a few grams", "A,11,\nB,10,\nC,12,\n", true],
    ["two", "A,11,\nB,10,\n", false],
    ["one tray of 25 g", "A,11,\nB,10,\nC,25,\n", false],
    ["none of 25 g", "A,11,\nB,10,\nC,24.9,\n", true],
    ["half of them below 15 g", "A,11,\nB,10,\nC,20,\nD,20,\n", true],
    ["fewer than half of them", "A,11,\nB,20,\nC,20,\nD,20,\n", false],
    ["15 g is not below 15 g", "A,15,\nB,15,\nC,15,\n", false],
    ["trays with nothing on them do not count", "A,11,\nB,10,\nC,0,\nD,,\n", false],
    ["the trays of a pool are taken by themselves", "A,2 trays 40 g,\nB,10,\nC,12,\nD,12,\n", true],
    ["a pool of many", "A,2 trays 50 g,\nB,10,\nC,12,\nD,12,\n", false],
  ])("%s", async (_, rows, expected) => {
    expect(await asks(header + rows)).toBe(expected);
  });
  test("the flushes of a row are taken together", async () => {
    const sideBySide = "tray_id,Flush 1 fresh (g),Flush 2 fresh (g)\nA,12,12\nB,7,5\nC,4,8\n";
    expect(await asks(sideBySide)).toBe(true);
    expect(await asks(sideBySide.replace("A,12,12", "A,12,13"))).toBe(false);
  });
  test("not where another unit, or columns.csv, says what they are", async () => {
    const rows = "A,0.4,\nB,0.4,\nC,0.4,\n";
    expect(await asks(`tray_id,Fresh (oz),Flush\n${rows}`)).toBe(false);
    expect(await asks(`tray_id,Fresh (g),Flush\n${rows}`)).toBe(true);
    const pin = { "columns.csv": "file,header,field,unit\n,Fresh (g),fresh_g,g\n" };
    expect(await asks(`tray_id,Fresh (g),Flush\n${rows}`, pin)).toBe(false);
  });
  test("with the line to add", async () => {
    const { issues } = await bookOf({ "a, b.csv": `${header}A,11,\nB,10,\nC,12,\n` });
    const [issue] = issues.filter(({ rule }) => rule === "weights-all-small");
    expect(issue).toMatchObject({ file: "a, b.csv", column: "Fresh (g)", raw: "Fresh (g)", severity: "warning" });
    expect(issue!.action).toBe(
      'Add the line "a, b.csv",Fresh (g),fresh_g,oz to columns.csv if they are ounces, or "a, b.csv",Fresh (g),fresh_g,g if they are grams',
    );
  });
});
