import { expect, test } from "vitest";
import { namesSummary } from "../../../src/csv/shape/summary-words.ts";
import { tablesOf } from "./tables-of.ts";

// Names of sums and means in the eight languages; common practice, no source.
test.each(
  "Total|TOTAL:|Subtotal A|Sub-total|Grand total|Totals (6 trays)|Avg/tray|Avg.|Average|Average dry|Mean|Median|Batch A mean|Σ|Ø|Sum of fresh|Cook 1 subtotal|Summe|Gesamt|Gesamtsumme|Zwischensumme A|Durchschnitt|Mittelwert|Mittel|Total général|Somme|Sous-total|Moyenne|Médiane|Suma|Promedio|Media|Totale|Somma|Subtotale|Totaal|Som|Gemiddelde|Razem|Suma|Średnia|Ogółem|Soma|Média|Totais".split(
    "|",
  ),
)("“%s” names a summary", (label) => {
  expect(namesSummary(label)).toBe(true);
});

test.each(
  "T1|A-01|Tray 5|O-1|O 12|Blue Oyster|Meander|Sumatra|Totem|Mean Green Machine|good|average size|median strip 4 b|Mediterranean|Gesamtschule".split(
    "|",
  ),
)("“%s” names none", (label) => {
  expect(namesSummary(label)).toBe(false);
});

const header = "Tray,Dose ml,Fresh g,Dry g,Note";
const trays = ["T1,10,200,20,", "T2,15,210,21,", "T3,15,226,25,"];

test.each([
  ["in the tray's column", "Total,,636,66,"],
  ["in the last column", ",,636,66,Total"],
  ["in the dose's column", ",Subtotal A,636,66,"],
  ["beside dots and dashes", "...,---,636,66,Total"],
  ["with a remark in the row", "Total,,640,66,good month"],
  ["of a sum over a part only", "Total w/o T1,,436,46,"],
])("a summary by its label %s", async (_, row) => {
  const { texts, left } = await tablesOf([header, ...trays, row, "T4,10,190,19,"].join("\n"));
  expect(texts[0]!.slice(1).map((cells) => cells.split("|")[0])).toEqual(["T1", "T2", "T3", "T4"]);
  expect(left).toEqual(["totals-row 5"]);
});

test.each([
  ["sums without a name", ",,636,66,"],
  ["a sum of one column without a name", ",,636,,"],
  ["means without a name, rounded", ",,212,22,"],
  ["means with more digits", ",,212.0,22.0,"],
  ["a mean, the dose's mean too", ",13.33,212,22,"],
  ["sums under a name that is a date", "2026,40,636,66,"],
])("a summary by arithmetic: %s", async (_, row) => {
  const { texts, left, issues } = await tablesOf([header, ...trays, row].join("\n"));
  expect(texts[0]!.slice(1).map((cells) => cells.split("|")[0])).toEqual(["T1", "T2", "T3"]);
  expect(left).toEqual(["totals-row 5"]);
  expect(issues).toMatchObject([{ rule: "summary-by-arithmetic", setting: "summary_rows" }]);
});

test.each(["O-%d", "O %d", "Tray %d", "C1-00%d", "MAR %d"])("trays called %s are trays", async (name) => {
  const rows = [1, 2, 3, 4].map(
    (tray) => `${name.replace("%d", String(tray))},${5 * tray},${200 + tray},${20 + tray},`,
  );
  const { texts, left } = await tablesOf([header, ...rows, "Total,,810,90,"].join("\n"));
  expect(texts[0]!.slice(1).map((cells) => cells.split("|")[0])).toEqual(rows.map((row) => row.split(",")[0]));
  expect(left).toEqual(["totals-row 6"]);
});

test.each([
  ["All", ",,636,66,"],
  ["Best", ",,226,25,"],
  ["min", ",,200,20,"],
])("a row called %s with numbers of the rows above and no dose sums up", async (name, rest) => {
  const { texts, left } = await tablesOf([header, ...trays, `${name}${rest}`].join("\n"));
  expect(texts[0]!.slice(1)).toHaveLength(3);
  expect(left).toEqual(["totals-row 5"]);
});

test("a tray of another name with a dose, or a weight of its own, is a tray", async () => {
  const rows = ["control,0,226,25,", "spare,,231,24,"];
  const { texts } = await tablesOf([header, ...trays, ...rows].join("\n"));
  expect(texts[0]!.slice(4).map((cells) => cells.split("|")[0])).toEqual(["control", "spare"]);
});

test("subtotals, then the total of all", async () => {
  const rows = [...trays, ",,636,66,", "T4,10,190,19,", "T5,10,191,18,", ",,381,37,", ",,1017,103,"];
  const { texts, left } = await tablesOf([header, ...rows].join("\n"));
  expect(texts[0]!.length).toBe(6);
  expect(left).toEqual(["totals-row 5", "totals-row 8", "totals-row 9"]);
});

test.each([
  ["a tray that weighs what the others do on average", "T4,15,212,22,"],
  ["a tray that weighs as much as two others", "T4,10,410,41,"],
  ["a tray of every column's least", "T4,10,200,20,"],
])("no summary: %s", async (_, row) => {
  const { texts, left } = await tablesOf([header, ...trays, row].join("\n"));
  expect(texts[0]!.length).toBe(5);
  expect(left).toEqual([]);
});

test("a row that names neither a tray nor a dose is asked about", async () => {
  const { texts, issues } = await tablesOf([header, ...trays, ",,650,70,"].join("\n"));
  expect(texts[0]!.length).toBe(4);
  expect(issues).toMatchObject([{ rule: "row-without-tray", severity: "warning", row: 5, setting: "summary_rows" }]);
});

test("summaries are kept where the settings say so", async () => {
  const { texts, left } = await tablesOf([header, ...trays, "Total,,636,66,"].join("\n"), { summaryRows: "keep" });
  expect(texts[0]!.at(-1)).toBe("Total||636|66|");
  expect(left).toEqual([]);
});

test("spread below a sum goes with it", async () => {
  const rows = [...trays, "Mean,,212,22,", "Std dev,,13.1,2.6,", "n,,3,3,", "min,,200,20,", "max,,226,25,"];
  const { left } = await tablesOf([header, ...rows].join("\n"));
  expect(left).toEqual(["totals-row 5", "totals-row 6", "totals-row 7", "totals-row 8", "totals-row 9"]);
});

test("no row of 20,000 trays with chance weights is taken for a sum", async () => {
  let state = 7;
  const next = () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 2147483648;
  };
  const rows = Array.from({ length: 20_000 }, (_, index) => {
    const fresh = Math.round(150 + 100 * next());
    return `T${index + 1},${[5, 10, 15][index % 3]},${fresh},${Math.round(fresh / 10)},`;
  });
  const { left } = await tablesOf([header, ...rows].join("\n"));
  expect(left).toEqual([]);
});
