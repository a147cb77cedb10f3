import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { expect, test } from "vitest";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { betweenText, figureText } from "../../src/report/front/figure-text.ts";
import { unbroken } from "../../src/report/shown-sentence.tsx";

const settings = { ...defaultSettings, currency: "EUR" };
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

test.each([
  [{ from: 6, to: 12, unit: "mL" }, "between 6 and 12 mL"],
  [{ from: 0.304, to: 0.351, unit: "money/g" }, "between €0.304 and €0.351"],
  [{ from: 0.041, to: 0.162, unit: "share" }, "between 4 and 16%"],
  [{ from: -4.93, to: -3.34, unit: "days", digits: 2, signed: true }, "between 3.3 and 4.9 days less"],
  [{ from: -1.18, to: 14.7, unit: "g", digits: 2, signed: true }, "between 1 less and 15 g more"],
  // both ends have the decimals of the range, whatever lies next to nothing
  [{ from: -1.18, to: 14.7, unit: "g", signed: true }, "between 1 less and 15 g more"],
  [{ from: -0.0018, to: 14.2, unit: "g", signed: true }, "between 0 and 14 g more"],
  [{ from: -0.77, to: 2.9, unit: "days", signed: true }, "between 0.8 less and 2.9 days more"],
  // an end that is not nothing does not read as nothing
  [{ from: 0.456, to: 10.8, unit: "g", digits: 2, signed: true }, "between 0.5 and 11 g"],
])("%o is read out with its unit once", (range, said) => {
  expect(plain(betweenText(range, settings))).toBe(said);
});

test("a difference has the decimals of its range in the large number, the sentence and the ends", () => {
  const range = { from: -0.77, to: 2.93 };
  const { large, small } = figureText({ label: "a tray", value: 1.08, unit: "g", signed: true, ...range }, settings);
  expect([large, small].map(plain)).toEqual(["+1.1 g", "a tray; between 0.8 less and 2.9 g more"]);
  const amount = (value: number) => ({ value, unit: "g", within: range });
  const said = sentenceText([amount(1.08), " more (", amount(0.77), " less to ", amount(2.93), " more)"], settings);
  expect(plain(said)).toBe("1.1 g more (0.8 g less to 2.9 g more)");
});

test("a figure is a large number, and what it is with its range", () => {
  const dose = { label: "best guess", value: 9, unit: "mL", from: 6, to: 12 };
  const { large, small } = figureText(dose, settings);
  expect([large, small].map(plain)).toEqual(["9 mL", "best guess; between 6 and 12 mL"]);
});

test.each([
  ["lies between −€0.54 and €2.00", ["−€0.54"]],
  ["next C24-3: harvest", ["C24-3"]],
  ["Re-read 4 trays, C2-015 first", ["C2-015"]],
  ["€0.326 per g of 7-day trays", ["per g", "7-day"]],
  ["a well-kept shed from 2026-05-01 on", ["2026-05-01"]],
  ["nothing to keep together", []],
])("in “%s” what belongs together stays on one line", (text, kept) => {
  const html = renderToString(h("p", null, unbroken(text)));
  expect([...html.matchAll(/<span class="whole">([^<]*)<\/span>/g)].map(([, piece]) => piece)).toEqual(kept);
  expect(html.replace(/<[^>]*>/g, "")).toBe(text);
});
