import { expect, test } from "vitest";
import { harvestOf } from "../book-of.ts";

/** Lines above or under the rows that doubt all of them, in the eight languages; and such as only look like it. Common practice, no source. */
const doubts: Readonly<Record<string, ReadonlyArray<string>>> = {
  "not sure": [
    ...["approximate", "weights approx. (kitchen scale)", "all weights from memory", "Gewichte geschätzt"],
    ...["poids approximatifs", "pesos aproximados", "pesi stimati", "gewichten geschat", "wagi szacunkowe"],
  ],
  "one flush": [
    ...["Weights after first flush only", "nur erste Welle", "seulement la première volée", "solo primera oleada"],
    ...["solo prima raccolta", "alleen eerste vlucht", "tylko pierwszy rzut", "apenas primeira colheita"],
  ],
  diluted: ["LC was diluted 1:1", "Flüssigkultur 1:1 verdünnt", "LC diluée 1:1", "cultivo diluido"],
  days: ["all dates one day late", "alle Daten einen Tag zu spät", "dates are approximate", "dates fausses"],
};
const plain = [
  ...["Harvest trial spring 2026", "Dry weights 2026", "First flush", "Late harvest dates", "Estimated harvest 12 May"],
  ...["Notes: approx 22 C all along", "Dates: d/m/y", "Temperature approx. 22", "Wave 2 trays only"],
  ...["weighed on kitchen scale", "Spawn run 20 days, circa 22 C", "Printed 02/03/2026", "LC dose trial"],
];
const rows = "Tray,LC ml,Fresh g\nB1,5,210\nB2,5,205\nB3,10,240\nB4,10,\n";

test.each(Object.entries(doubts).flatMap(([what, lines]) => lines.map((line) => [line, what])))(
  "%s: used, and each weighed tray is flagged",
  async (line, what) => {
    for (const text of [`${line},,\n${rows}`, `${rows}${line},,\n`]) {
      const { trays, issues } = await harvestOf(text);
      expect(trays.map(({ freshGrams }) => freshGrams)).toEqual([210, 205, 240, undefined]);
      expect(trays.map(({ flags }) => flags.includes("doubt-beside-rows"))).toEqual([true, true, true, false]);
      const said = issues.find(({ rule }) => rule === "doubt-beside-rows")!;
      expect(said.reason).toContain(what);
      expect(said.action).toContain(line);
    }
  },
);

test.each(plain)("%s doubts nothing", async (line) => {
  const { issues } = await harvestOf(`${line},,\n${rows}`);
  expect(issues.filter(({ rule }) => rule === "doubt-beside-rows")).toEqual([]);
});
