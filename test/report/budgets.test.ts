import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { runBook } from "../../src/engine/run-book.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { describeInBrowser } from "../browser.ts";
import { demoAnswers, sheetSources } from "../engine/demo-answers.ts";
import { liveReport } from "../live/live-report.ts";

const generator = { version: "1.2.3" };
const demo = demoAnswers().then(({ book, answers }) => renderReport({ book, answers, generator }));

const header = "tray_id,batch,inoculum_ml,outcome,fresh_g,dry_g,inoculated_on,colonised_on,harvested_on";
const sixTrays = [
  "T1,C1,3,good,210,21.0,2026-03-02,2026-03-17,2026-04-20",
  "T2,C1,3,good,225,22.5,2026-03-02,2026-03-18,2026-04-20",
  "T3,C1,3,good,251,25.1,2026-03-02,2026-03-17,2026-04-20",
  "T4,C1,9,good,287,28.7,2026-03-02,2026-03-15,2026-04-18",
  "T5,C1,9,good,306,30.6,2026-03-02,2026-03-14,2026-04-18",
  "T6,C1,9,contaminated,,,2026-03-02,,",
];
const six = (async () => {
  const sources = sheetSources({ "harvests/h.csv": [header, ...sixTrays].join("\n") });
  const { book, answers } = await runBook(sources, { name: "six" });
  return renderReport({ book, answers, generator });
})();

/** What a reader has to go through, measured on the page as it opens. */
const measured = (page: Page) =>
  page.evaluate(() => {
    // biome-ignore lint/performance/useDomNodeTextContent: what is in sight counts, not what is folded away
    const seen = document.body.innerText;
    const words = seen.split(/\s+/).filter((word) => word !== "");
    const sideways = [...document.querySelectorAll("*")].filter((element) => {
      const { overflowX } = getComputedStyle(element);
      return (
        /auto|scroll/.test(overflowX) && element.scrollWidth > element.clientWidth + 1 && element.checkVisibility()
      );
    });
    const lines = seen.split("\n").filter((line) => line.length > 60);
    return {
      screens: document.documentElement.scrollHeight / innerHeight,
      front: document.querySelector(".front")!.getBoundingClientRect().bottom / innerHeight,
      words: words.length,
      sideways: sideways.length,
      cannotTell: seen.match(/cannot tell/gi)?.length ?? 0,
      twice: lines.filter((line, at) => lines.indexOf(line) !== at),
    };
  });

/** Pages of paper, folds as they are. */
async function pages(page: Page): Promise<number> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  return (pdf.match(/\/Type\s*\/Page[^s]/g) ?? []).length;
}

describeInBrowser("a report is read in two minutes", ({ open }) => {
  test("the demo book: one screen for the front, few for the rest, nothing said twice", async () => {
    const html = await demo;
    const { page } = await open(html, { viewport: { width: 1280, height: 900 } });
    const wide = await measured(page);
    expect(wide.front).toBeLessThanOrEqual(1);
    expect(wide.screens).toBeLessThanOrEqual(10);
    expect(wide.words).toBeLessThanOrEqual(2500);
    expect(wide.twice).toEqual([]);
    expect(await pages(page)).toBeLessThanOrEqual(6);
    await page.setViewportSize({ width: 390, height: 844 });
    const narrow = await measured(page);
    expect(narrow.front).toBeLessThanOrEqual(2.1);
    expect(narrow.screens).toBeLessThanOrEqual(13.5);
    expect(narrow.sideways).toBeLessThanOrEqual(2);
    await page.context().close();
  });

  test("the demo book weighs little, and its front stands before any script", async () => {
    const bytes = (html: string) => Buffer.byteLength(html);
    expect(bytes(await demo)).toBeLessThanOrEqual(450_000);
    const live = await liveReport((await demoAnswers()).book);
    expect(bytes(live)).toBeLessThanOrEqual(1_250_000);
    const front = live.indexOf('id="next-place"');
    expect(front).toBeGreaterThan(0);
    expect(live.search(/<script[ >]/)).toBeGreaterThan(front);
    // what comes before a browser can paint the front
    expect(front).toBeLessThan(100_000);
  });

  test("six trays: two screens, and no refusal said again and again", async () => {
    const { page } = await open(await six, { viewport: { width: 1280, height: 900 } });
    const { screens, cannotTell, twice } = await measured(page);
    expect(screens).toBeLessThanOrEqual(2.2);
    expect(cannotTell).toBeLessThanOrEqual(4);
    expect(twice).toEqual([]);
    expect(await pages(page)).toBeLessThanOrEqual(2);
    await page.context().close();
  });
});
