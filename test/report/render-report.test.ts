import { expect, test } from "vitest";
import type { AnsweredQuestion } from "../../src/analysis.ts";
import { headlineLines } from "../../src/cli/headline-lines.ts";
import { runBook } from "../../src/engine/run-book.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { bookLine } from "../../src/report/front/book-head.tsx";
import { renderReport } from "../../src/report/render-report.tsx";
import { stylesheet } from "../../src/report/style/stylesheet.ts";
import { sheetSources } from "../engine/demo-answers.ts";
import { hostileAnswers, hostileBook } from "./hostile.ts";
import { sampleAnswers } from "./sample-answers.ts";
import { sampleBook, sampleIssue, sampleTray } from "./sample-book.ts";

const generator = { version: "1.2.3" };
const render = (book = sampleBook(), answers: AnsweredQuestion[] = sampleAnswers) =>
  renderReport({ book, answers, generator });
const usual = render();
/** the page without its style and the cost sheet to download */
const words = (html: string) =>
  html.replace(/href="data:text[^"]*"/g, 'href="#top"').replace(/<style[^>]*>.*?<\/style>/gs, "");

const tagsOf = (html: string, name: string) => html.match(new RegExp(`<${name}(?: [^>]*)?>`, "g")) ?? [];

test("the same input gives the same bytes", async () => {
  expect(await usual).toBe(await render());
});

test("no value is missing or no number", async () => {
  for (const html of [await usual, await render(sampleBook({ settings: { ...defaultSettings, displayUnits: "us" } }))])
    expect(words(html)).not.toMatch(/\bundefined\b|\bNaN\b|\bnull\b|\[object|Infinity/);
});

test("the parts stand in their order", async () => {
  const html = words(await usual);
  const places = [
    "<h1>Spring dose trial</h1>",
    'id="answers"',
    'id="next"',
    'id="growing-title"',
    'id="money-title"',
    'id="waiting-title"',
    'id="sheets-title"',
    "Written by Gramwright 1.2.3.",
  ].map((mark) => html.indexOf(mark));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
  expect(places[0]).toBeGreaterThan(0);
});

test("how sure is a mark and a word; what waits is said once, with what would settle it", async () => {
  const html = words(await usual);
  for (const word of ["settled", "leaning", "open"]) expect(html).toContain(`</svg>${word}</span>`);
  expect(html).toContain("1 question waits for one thing");
  const [waiting] = sampleAnswers.filter(({ outcome }) => outcome.kind === "cannot-tell");
  expect(html.split(waiting!.question).length - 1).toBe(1);
  expect(html).toContain("Without the 2 flagged trays, one answer changes");
});

test("one load treated alike: what it gave stands on the front and in the terminal, with the next step", async () => {
  const tray = (line: string, index: number) => `T${index + 1},A,6,${line}`;
  const lines = ["30.1,", "32.3,", "29.2,", "36.8,", ",contaminated", "32.5,"].map(tray);
  const sources = sheetSources({ "h.csv": ["tray,cook,ml,dry g,outcome", ...lines].join("\n") });
  const { book, answers } = await runBook(sources, { name: "one load" });
  const html = words(await renderReport({ book, answers, generator }));
  const front = html.slice(html.indexOf("<h1>"), html.indexOf('id="growing-title"')).replaceAll("\u00a0", " ");
  expect(front).toContain("nothing to compare yet");
  expect(front).toContain(">32.2 g<");
  expect(front).toContain("the trays 29.2 to 36.8 g");
  expect(front).toContain("Give half the trays of the next cook another dose.");
  const lead = headlineLines(book, answers).join("\n").replaceAll("\u00a0", " ");
  expect(lead).toContain("5 of 6 finished trays good, mean of a good tray 32.2 g dry (the trays 29.2 to 36.8 g)");
});

test("the months stand in the language of the page, whatever the number format", async () => {
  const german = sampleBook({ settings: { ...defaultSettings, locale: "de-DE" } });
  expect(bookLine(german)).toBe(bookLine(sampleBook()));
});

test("every table has a caption, headed columns and headed rows; every image a text", async () => {
  const html = await usual;
  const tables = html.match(/<table[ >].*?<\/table>/gs) ?? [];
  expect(tables.length).toBeGreaterThan(10);
  for (const table of tables) {
    expect(table).toMatch(/^<table(?: class="compact")?><caption(?: id="[\w-]+")?>(?:<span>)?[^<]+</);
    expect(tagsOf(table, "th").every((tag) => /scope="(col|row)"/.test(tag))).toBe(true);
    const rows = table.match(/<tr[ >].*?(?=<tr[ >]|<t(?:body|foot)>|<\/table>)/gs) ?? [];
    expect(rows.every((row) => /^<tr(?: class="[^"]*")?><th scope="/.test(row))).toBe(true);
    expect(new Set(rows.map((row) => (row.match(/<t[hd][ >]/g) ?? []).length)).size).toBe(1);
  }
  const pictures = tagsOf(html, "svg").filter((tag) => !tag.includes('aria-hidden="true"'));
  expect(pictures.length).toBeGreaterThan(6);
  expect(pictures.filter((tag) => !/aria-label="[^"]{8,}"/.test(tag))).toEqual([]);
});

test("ids are unique, links stay on the page and lead somewhere", async () => {
  const html = words(await usual);
  const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]!);
  expect(new Set(ids).size).toBe(ids.length);
  const links = [...html.matchAll(/href="([^"]+)"/g)].map((match) => match[1]!);
  expect(links.length).toBeGreaterThan(10);
  expect(links.every((link) => link.startsWith("#") && ids.includes(link.slice(1)))).toBe(true);
});

test("nothing can be loaded or run", async () => {
  const html = await usual;
  expect(html).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; img-src data:;`);
  expect(html).not.toMatch(/<script|<link|<iframe|<object|@import|url\(| on[a-z]+="|javascript:/i);
});

test("the style holds nothing that markup would escape", () => {
  expect(stylesheet).not.toMatch(/["&<]/);
});

test("hostile text is shown and does nothing", async () => {
  const html = words(await render(hostileBook(), hostileAnswers()));
  expect(html).not.toMatch(/<script|<img src=x|<b>|href="(?!#)/i);
  expect(html).toContain("&lt;script>globalThis.hit=1&lt;/script>");
  expect(html).toContain("javascript:globalThis.hit=1");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: what a page must not hold is what is looked for
  expect(html).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u202e\ufffe]|[\ud800-\udbff](?![\udc00-\udfff])/);
});

test("a chart that cannot be drawn leaves its numbers and a message", async () => {
  const broken = structuredClone(sampleAnswers[0]!);
  const chart = broken.outcome.charts[0]!;
  if (chart.kind !== "trays-by-group") throw new Error("the sample changed");
  chart.groups[0]!.mean = Number.NaN;
  const html = await render(sampleBook(), [broken]);
  expect(html).toContain("This chart could not be drawn");
  expect(html).toContain('<caption id="q-does-dose-change-yield-chart">');
});

test("an empty book still makes a page", async () => {
  const empty = sampleBook({ trays: [], issues: [], leftOut: [], columns: [], harvestFiles: [] });
  const { costLines: _, products: __, ...bare } = empty;
  const html = words(await render(bare, []));
  expect(html).toContain("0 trays");
  expect(html).toContain("The book has no costs.csv");
  expect(html).not.toMatch(/\bundefined\b|\bNaN\b/);
});

test("a very large book is cut, says so, and stays small", async () => {
  const book = sampleBook({
    trays: Array.from({ length: 5000 }, (_, index) => sampleTray(index)),
    issues: Array.from({ length: 9000 }, (_, row) => sampleIssue({ row })),
    leftOut: Array.from({ length: 900 }, (_, row) => ({ file: "f", row, cells: ["a"], rule: "r", reason: "why" })),
  });
  const html = await render(book);
  expect(html).toContain("The first 1000 of 5000 trays are shown.");
  expect(html).toContain("the other 7000 are in the file spring-trial-log.csv beside this report");
  expect(html).toContain("The first 500 of 900 rows are shown.");
  expect(html.length).toBeLessThan(2_500_000);
});

test("an unknown locale is said to be replaced", async () => {
  const settings = { ...sampleBook().settings, locale: "nowhere" };
  expect(await render(sampleBook({ settings }))).toContain("is not known here; numbers are written as in en-GB");
});
