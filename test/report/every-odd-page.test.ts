import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { AnsweredQuestion } from "../../src/analysis.ts";
import { headlineLines } from "../../src/cli/headline-lines.ts";
import { runBook } from "../../src/engine/run-book.ts";
import { snapshotOf } from "../../src/engine/run-snapshot.ts";
import type { Book } from "../../src/records/book.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { describeInBrowser, type OpenedPage } from "../browser.ts";
import { sheetSources } from "../engine/demo-answers.ts";
import { pageFaults } from "./page-faults.ts";
import { uncommonBooks } from "./uncommon-books.ts";

const schema = JSON.parse(
  readFileSync(fileURLToPath(new URL("../../docs/answers.schema.json", import.meta.url)), "utf8"),
);
const validate = new Ajv2020({ strictTuples: false, allowUnionTypes: true }).compile(schema);

const names = Object.keys(uncommonBooks);
const ran = new Map<string, Promise<{ book: Book; answers: AnsweredQuestion[] }>>();
/** A book's answers, worked out once for all tests of this file. */
function answersOf(name: string) {
  const found = ran.get(name) ?? runBook(sheetSources(uncommonBooks[name]!()), { name });
  ran.set(name, found);
  return found;
}

const words = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

/** words that are not said to a grower, of no use outside a statistics course, or of another age */
const notSaid =
  /\b(told|anew|dealt|hangs on|whilst|null hypothesis|p-value|heteroscedastic\w*|covariate|undefined|NaN|Infinity|null|object Object)\b/i;

test.each(names)("%s: the answers have the documented shape, and their words are few and plain", async (name) => {
  const { book, answers } = await answersOf(name);
  expect(validate(JSON.parse(JSON.stringify(snapshotOf(book, answers)))) ? [] : validate.errors).toEqual([]);
  for (const { id, outcome } of answers) {
    const { short, figure, next = [] } = outcome;
    const most = (limit: number, text: string, what: string) => {
      expect(words(text), `${id}, ${what}: ${text}`).toBeLessThanOrEqual(limit);
      expect(text, `${id}, ${what}`).not.toMatch(notSaid);
    };
    if (short !== undefined) most(16, sentenceText(short, book.settings), "short");
    if (figure !== undefined) most(6, figure.label.replace(/, (?:costs|sales) in doubt$/, ""), "figure");
    for (const { act, because } of next) {
      // the name of a product, a tray or a column is as long as it was typed
      most(/products|own/.test(name) ? 20 : 10, sentenceText(act, book.settings), "act");
      if (because !== undefined) most(14, sentenceText(because, book.settings), "because");
    }
  }
  // a column's own name stands once in a sentence
  for (const { short = [], next = [] } of answers.map(({ outcome }) => outcome))
    for (const said of [short, ...next.flatMap(({ act, because = [] }) => [act, because])]) {
      const named = sentenceText(said, book.settings).match(/“[^”]+”(?! row)/g) ?? [];
      expect(new Set(named).size, named.join(" ")).toBe(named.length);
    }
  const lines = headlineLines(book, answers);
  for (const line of lines) expect(line).not.toMatch(notSaid);
  expect(Math.max(...lines.map((line) => line.length)), lines.join("\n")).toBeLessThanOrEqual(118);
  expect(lines.join("\n").match(/cannot tell/g)?.length ?? 0).toBeLessThanOrEqual(4);
});

describeInBrowser("pages of books that differ from the demo", ({ open }) => {
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await open("<!doctype html>");
  });
  afterAll(() => opened?.page.context().close());

  test.each(names)(
    "%s: no label on another, no word in two, nothing cut or sideways, and few screens",
    async (name) => {
      const html = await renderReport({ ...(await answersOf(name)), generator: { version: "1.2.3" } });
      const { page, complaints } = opened;
      await page.setViewportSize({ width: 1280, height: 900 });
      await page.setContent(html);
      const folded = await page.evaluate(() => ({
        screens: document.documentElement.scrollHeight / innerHeight,
        // biome-ignore lint/performance/useDomNodeTextContent: what is in sight counts, not what is folded away
        words: document.body.innerText.split(/\s+/).length,
      }));
      expect(folded.screens).toBeLessThanOrEqual(12);
      expect(folded.words).toBeLessThanOrEqual(3500);
      const none = { overlaps: [], outside: [], broken: [], cut: [] };
      for (const width of [1280, 768, 320]) {
        await page.setViewportSize({ width, height: 900 });
        // the last one with all folds open
        if (width === 320)
          await page.evaluate(() => {
            for (const fold of document.querySelectorAll("details")) fold.open = true;
          });
        expect(await page.evaluate(pageFaults), `at ${width} px`).toEqual(none);
        expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      }
      expect(complaints).toEqual([]);
    },
    240_000,
  );
});
