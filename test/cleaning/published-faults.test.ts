import { describe, expect, test } from "vitest";
import type { Book } from "../../src/records/book.ts";
import { bookOf, harvestOf } from "./book-of.ts";

/** The sheet every fault is put into: six trays of known dose and weights. */
const header = ["Tray", "LC ml", "Inoculated", "Fresh g", "Dry g", "Outcome", "Note"];
const truth = [
  ["T1", "10", "2026-03-02", "205", "21", "good", ""],
  ["T2", "10", "2026-03-02", "198", "20", "good", "dense, white"],
  ["T3", "15", "2026-03-03", "231", "24", "good", ""],
  ["T4", "15", "2026-03-03", "229", "23", "good", ""],
  ["T5", "20", "2026-03-04", "", "", "contaminated", ""],
  ["T6", "20", "2026-03-04", "236", "24", "good", ""],
];
const quoted = (cell: string, by: string, quote = '"'): string =>
  cell.includes(by) || cell.includes(quote) || cell.includes("\n") ? `${quote}${cell}${quote}` : cell;
const csv = (rows: string[][], by = ",", end = "\n"): string =>
  rows.map((row) => row.map((cell) => quoted(cell, by)).join(by)).join(end) + end;
const plain = csv([header, ...truth]);
const line = (row: number): string => csv([truth[row]!]).trim();
const withLine = (row: number, text: string): string => plain.replace(line(row), text);

const facts = ({ trays }: Book) =>
  trays.map(({ trayId, inoculumMillilitres, freshGrams, dryGrams, outcome }) => [
    trayId,
    inoculumMillilitres,
    freshGrams,
    dryGrams,
    outcome,
  ]);
const right = truth.map(([tray, dose, , fresh, dry, outcome]) => [
  tray,
  Number(dose),
  fresh === "" ? undefined : Number(fresh),
  dry === "" ? undefined : Number(dry),
  outcome,
]);

/** Every value read is as it was typed; one that is not there was asked about. */
function rightOrAsked(book: Book): void {
  const read = new Map(facts(book).map((tray) => [tray[0], tray]));
  const asked = book.issues.some(({ severity }) => severity === "error" || severity === "warning");
  for (const tray of right) {
    const found = read.get(tray[0]);
    if (!asked) expect(found).toEqual(tray);
    for (const [at, value] of found?.entries() ?? []) if (value !== undefined) expect(value).toEqual(tray[at]);
  }
  for (const [name] of facts(book)) expect(right.map(([tray]) => tray)).toContain(name);
}

// Vitagliano, Hameed, Jiang, Reisener, Wu and Naumann (2023), Pollock: A Data Loading Benchmark, PVLDB 16(8): 1870-1882,
// its pollutions of a standard CSV file, put into a sheet of our own.
describe("Pollock's pollutions", () => {
  test.each([
    ["no pollution", plain],
    ["fields separated by a semicolon", csv([header, ...truth], ";")],
    ["fields separated by a tab", csv([header, ...truth], "\t")],
    ["fields separated by a bar", csv([header, ...truth], "|")],
    ["fields separated by a comma and a space", plain.replaceAll(",", ", ")],
    ["records ended by CR LF", csv([header, ...truth], ",", "\r\n")],
    ["records ended by CR", csv([header, ...truth], ",", "\r")],
    ["no line end behind the last record", plain.trimEnd()],
    ["two line ends behind the last record", `${plain}\n\n`],
    ["a byte-order mark", `\uFEFF${plain}`],
    [
      "every field in quotation marks",
      [header, ...truth].map((row) => row.map((cell) => `"${cell}"`).join(",")).join("\n"),
    ],
    ["a preamble of one line", `Spring trial\n${plain}`],
    ["a preamble of several lines with separators", `Spring trial,,,,,,\nShed 2,,,,,,\n,,,,,,\n${plain}`],
    ["a footnote", `${plain}\n* weighed wet\n`],
    [
      "a header of two lines, units below",
      plain.replace("\n", "\n,ml,,g,g,,\n").replace("LC ml", "LC").replace("Fresh g", "Fresh").replace("Dry g", "Dry"),
    ],
    [
      "a header repeated in the middle",
      [header, ...truth.slice(0, 3), header, ...truth.slice(3)].map((row) => csv([row])).join(""),
    ],
    ["a further table below", `${plain}\nItem,Pack price,Pack size\nRye,20,25 kg\nBags,30,100\n`],
    ["blank records between", plain.replaceAll("\n", "\n\n")],
    ["a row of nothing but separators", plain.replace(line(2), `,,,,,,\n${line(2)}`)],
    ["every record with a separator at its end", plain.replaceAll("\n", ",\n")],
  ])("read right: %s", async (_, text) => {
    expect(facts(await harvestOf(text))).toEqual(right);
  });

  test.each([
    ["a separator too many behind the tray", withLine(2, line(2).replace("T3,", "T3,,"))],
    ["a separator too many before the weights", withLine(2, line(2).replace(",231", ",,231"))],
    ["a separator too many at the end", withLine(2, `${line(2)},`)],
    ["two separators too many", withLine(3, line(3).replace("T4,15", "T4,,,15"))],
    ["a separator missing between dose and date", withLine(2, line(2).replace("15,2026", "152026"))],
    ["a separator missing between the weights", withLine(2, line(2).replace("231,24", "23124"))],
    ["a separator missing at the end", withLine(2, line(2).replace(/,$/, ""))],
    ["a quotation mark missing at the end of a field", withLine(1, line(1).replace(/"$/, ""))],
    ["a quotation mark missing at the start of a field", withLine(1, line(1).replace(',"dense', ",dense"))],
    ["another separator in one record", withLine(2, line(2).replaceAll(",", ";"))],
    ["a quotation mark in a field", withLine(2, line(2).replace(/,$/, ',5" block'))],
    ["another line end in one record", plain.replace(`${line(2)}\n`, `${line(2)}\r\n`)],
  ])("read right or asked: %s", async (_, text) => {
    rightOrAsked(await harvestOf(text));
  });
});

// Broman and Woo (2018), Data Organization in Spreadsheets, The American Statistician 72(1): 2-10: twelve habits, each
// broken here.
describe("Broman and Woo's habits, broken", () => {
  test.each([
    [
      "be consistent: names and doses spelt in several ways",
      plain.replace("T2,10,", "T2,10 mL,").replace("T4,15,", "T4,15cc,"),
    ],
    [
      "write dates as YYYY-MM-DD: month names",
      plain.replaceAll("2026-03-0", "March ").replace(/March (\d)/g, "March $1 2026"),
    ],
    [
      "no empty cells: a dose typed once for its trays",
      csv([
        ["Batch", ...header],
        ...truth.map((row, index) => [
          index % 2 === 0 ? `B${index / 2}` : "",
          ...row.map((cell, column) => (column === 1 && index % 2 === 1 ? "" : cell)),
        ]),
      ]).replace(/^/, ""),
    ],
    [
      "put just one thing in a cell: unit and note beside the weight",
      plain.replace(",205,", ",205 g,").replace(",231,", ",231 (a beauty),"),
    ],
    ["make it a rectangle: a title, blank rows and a mean below", `Trial 1\n\n${plain}\nMean,15,,219.8,22.4,,\n`],
    ["create a data dictionary: codes explained under the table", `${plain}\nLC = liquid culture\n`],
    [
      "no calculations in the raw data: sums and a formula's error",
      `${plain}Total,90,,1099,112,,\nper tray,,,#DIV/0!,,,\n`,
    ],
    ["no font color or highlighting: marks in the text instead", plain.replace("T3,", "T3*,").replace("T3*", "T3")],
    [
      "choose good names: spaces, brackets and signs",
      plain.replace("Fresh g", " Fresh  weight (g) ").replace("LC ml", "LC [mL]"),
    ],
    ["save in plain text: another encoding's line ends", plain.replaceAll("\n", "\r\n")],
  ])("%s", async (_, text) => {
    rightOrAsked(await harvestOf(text));
  });

  test("make backups: a copy beside the sheet is no second month", async () => {
    const book = await bookOf({ "trial.csv": plain, "trial copy.csv": plain });
    expect(facts(book).map(([tray]) => tray)).toEqual(right.map(([tray]) => tray));
  });
});

// Wickham (2014), Tidy Data, Journal of Statistical Software 59(10): five kinds of untidy tables.
describe("Wickham's untidy tables", () => {
  test("column headers are values, not variable names: a tray in each cell, where they are doses", async () => {
    const book = await harvestOf("Rep,10 mL,15 mL,20 mL\n1,205,231,236\n2,198,229,240\n");
    expect(book.trays.map(({ inoculumMillilitres, freshGrams }) => [inoculumMillilitres, freshGrams])).toEqual([
      [10, 205],
      [15, 231],
      [20, 236],
      [10, 198],
      [15, 229],
      [20, 240],
    ]);
    expect(book.issues).toContainEqual(expect.objectContaining({ rule: "trays-as-cells", setting: "layout" }));
  });

  test("several variables in one column: left whole, as a factor of the grower's own", async () => {
    const book = await harvestOf(
      "Tray,Code,Fresh g\nT1,A-10-fine,205\nT2,A-15-fine,231\nT3,B-10-coarse,198\nT4,B-15-coarse,229\n",
    );
    expect(book.trays.map(({ factors }) => factors.Code)).toEqual([
      "A-10-fine",
      "A-15-fine",
      "B-10-coarse",
      "B-15-coarse",
    ]);
  });

  test("variables in both rows and columns: things down, flushes across", async () => {
    const book = await harvestOf(
      "Tray,what,flush 1,flush 2\nT1,fresh g,150,55\nT1,dry g,15,6\nT2,fresh g,140,58\nT2,dry g,14,6\n",
    );
    expect(book.trays.map(({ trayId, freshGrams, dryGrams }) => [trayId, freshGrams, dryGrams])).toEqual([
      ["T1", 205, 21],
      ["T2", 198, 20],
    ]);
  });

  test("several kinds of unit in one table: facts of the cook beside those of its trays", async () => {
    const rows = truth.map((row, index) => [`C${Math.floor(index / 2) + 1}`, "rye", ...row]);
    const book = await harvestOf(csv([["Cook", "Grain kind", ...header], ...rows]));
    expect(facts(book)).toEqual(right);
  });

  test("one unit in several tables: doses in one, weights in another", async () => {
    const doses = csv([header.slice(0, 3), ...truth.map((row) => row.slice(0, 3))]);
    const weights = csv([["Tray", ...header.slice(3)], ...truth.map(([tray, , , ...rest]) => [tray!, ...rest])]);
    const book = await bookOf({ "harvests/doses.csv": doses, "harvests/weights.csv": weights });
    expect(facts(book)).toEqual(right);
    expect(facts(await harvestOf(`${doses}\n${weights}`))).toEqual(right);
  });
});
