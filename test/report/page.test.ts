import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { renderReport } from "../../src/report/render-report.tsx";
import { describeInBrowser } from "../browser.ts";
import { hostileAnswers, hostileBook } from "./hostile.ts";
import { sampleAnswers } from "./sample-answers.ts";
import { sampleBook } from "./sample-book.ts";

const generator = { version: "1.2.3" };
const sampleHtml = renderReport({ book: sampleBook(), answers: sampleAnswers, generator });
const hostileHtml = sampleHtml.then(() => renderReport({ book: hostileBook(), answers: hostileAnswers(), generator }));
const sample = () => sampleHtml;
const hostile = () => hostileHtml;

/** Opening tags in the order they are written. */
const writtenTags = (html: string) =>
  [...html.replace(/<style([^>]*)>.*?<\/style>/gs, "<style$1>").matchAll(/<([a-z][a-zA-Z0-9]*)[\s>/]/g)].map(
    (match) => match[1]!,
  );

describeInBrowser("the report in a browser", ({ open }) => {
  test.each([
    ["light", 320],
    ["light", 1280],
    ["light", 1920],
    ["dark", 390],
    ["dark", 768],
  ] as const)("accessible in %s at %d px", async (colorScheme, width) => {
    const html = await sample();
    const { page } = await open(html, { colorScheme, viewport: { width, height: 900 } });
    // open the folds: what is hidden is not looked at
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    const { violations } = await new AxeBuilder({ page })
      // further rows look like the first three, and only take time
      .exclude("tbody tr:nth-child(n+4)")
      .analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await page.context().close();
  });

  test.each([390, 1280, 3840])("no sideways scrolling at %d px, folds open or closed", async (width) => {
    for (const html of [await sample(), await hostile()]) {
      const { page, requests, complaints } = await open(html, { viewport: { width, height: 800 } });
      const sideways = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(await sideways()).toBeLessThanOrEqual(0);
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll("details")) fold.open = true;
      });
      expect(await sideways()).toBeLessThanOrEqual(0);
      expect(requests).toEqual([]);
      expect(complaints).toEqual([]);
      await page.context().close();
    }
  });

  test("nothing in a hostile book runs, and every drawing is there", async () => {
    const { page } = await open(await hostile());
    expect(await page.evaluate(() => "hit" in globalThis)).toBe(false);
    expect(await page.locator("svg.chart").count()).toBeGreaterThan(1);
    expect(await page.locator("svg script, svg foreignObject, svg a").count()).toBe(0);
    await page.context().close();
  });

  test.each([
    ["sample", sample],
    ["hostile", hostile],
  ])("the browser builds the %s page as it is written", async (_, make) => {
    const html = await make();
    const { page } = await open(html);
    const built = await page.evaluate(() => [...document.querySelectorAll("*")].map(({ localName }) => localName));
    expect(built).toEqual(writtenTags(html));
    await page.context().close();
  });

  test("head and first column stay in sight while a sheet scrolls", async () => {
    const { page } = await open(await sample(), { viewport: { width: 390, height: 800 } });
    await page.locator("#trays > details").evaluate((fold: HTMLDetailsElement) => {
      fold.open = true;
    });
    const box = page.locator("#trays .sheet-box");
    const inside = await box.evaluate((element) => {
      element.scrollTo(300, 300);
      const edge = element.getBoundingClientRect();
      const head = element.querySelector("thead th:last-child")!.getBoundingClientRect();
      const first = element.querySelector("tbody tr:last-child th")!.getBoundingClientRect();
      return { moved: element.scrollTop > 0, down: head.top - edge.top, along: first.left - edge.left };
    });
    expect(inside.moved).toBe(true);
    expect(Math.abs(inside.down)).toBeLessThanOrEqual(2);
    expect(Math.abs(inside.along)).toBeLessThanOrEqual(2);
    await page.context().close();
  });

  test("folds open by keyboard; on paper they stay as they are, or all open, in light colours", async () => {
    const { page } = await open(await sample(), { colorScheme: "dark" });
    const fold = page.locator(".q .fold").first();
    const body = fold.locator("> .fold-body");
    expect(await body.isVisible()).toBe(false);
    await fold.locator("> summary").focus();
    await page.keyboard.press("Enter");
    expect(await body.isVisible()).toBe(true);
    await page.keyboard.press("Enter");
    await page.emulateMedia({ media: "print" });
    expect(await body.isVisible()).toBe(false);
    await page.locator("#print-all").evaluate((box: HTMLInputElement) => {
      box.checked = true;
    });
    expect(await body.evaluate((element) => element.getBoundingClientRect().height)).toBeGreaterThan(0);
    expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe("rgb(17, 17, 17)");
    await page.context().close();
  });

  test("the first stop by keyboard leads to the answers", async () => {
    const { page } = await open(await sample());
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent?.trim())).toBe("To the answers");
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => location.hash)).toBe("#top");
    await page.context().close();
  });
});
