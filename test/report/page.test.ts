import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { renderReport } from "../../src/report/render-report.tsx";
import { accessFaults } from "../accessible.ts";
import { describeInBrowser, type OpenedPage } from "../browser.ts";
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

/** The tags of the page as the browser has them. */
const tagsBuilt = (page: Page): Promise<string[]> =>
  page.evaluate(() => [...document.querySelectorAll("*")].map(({ localName }) => localName));

describeInBrowser("the report in a browser", ({ open }) => {
  let page: Page;
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await open(await sample(), { viewport: { width: 1280, height: 900 } });
    page = opened.page;
  });
  afterAll(() => page?.context().close());
  const openAll = (of: Page) =>
    of.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });

  test("the first stop by keyboard leads to the answers", async () => {
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent?.trim())).toBe("To the answers");
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => location.hash)).toBe("#top");
  });

  test("head and first column stay in sight while a sheet scrolls", async () => {
    await page.setViewportSize({ width: 390, height: 800 });
    const fold = page.locator("#trays > details");
    const setOpen = (isOpen: boolean) =>
      fold.evaluate((it: HTMLDetailsElement, to) => {
        it.open = to;
      }, isOpen);
    await setOpen(true);
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
    await setOpen(false);
  });

  test("folds open by keyboard; on paper they stay as they are, or all open, in light colours", async () => {
    await page.setViewportSize({ width: 1280, height: 720 });
    await page.emulateMedia({ colorScheme: "dark" });
    const fold = page.locator(".q .fold").first();
    const body = fold.locator("> .fold-body");
    expect(await body.isVisible()).toBe(false);
    await fold.locator("> summary").focus();
    await page.keyboard.press("Enter");
    expect(await body.isVisible()).toBe(true);
    await page.keyboard.press("Enter");
    await page.emulateMedia({ media: "print" });
    expect(await body.isVisible()).toBe(false);
    const printAll = (isAll: boolean) =>
      page.locator("#print-all").evaluate((box: HTMLInputElement, to) => {
        box.checked = to;
      }, isAll);
    await printAll(true);
    expect(await body.evaluate((element) => element.getBoundingClientRect().height)).toBeGreaterThan(0);
    expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe("rgb(17, 17, 17)");
    await printAll(false);
    await page.emulateMedia({ media: "screen" });
  });

  /** Sideways scrolling at each width, with the folds as they are and all open. */
  async function expectNoSideways(of: OpenedPage): Promise<void> {
    const sideways = () => of.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    const widths = [390, 1280, 3840];
    for (const isOpen of [false, true]) {
      if (isOpen) await openAll(of.page);
      for (const width of widths) {
        await of.page.setViewportSize({ width, height: 800 });
        expect(await sideways(), `${width} px, folds ${isOpen ? "open" : "as they are"}`).toBeLessThanOrEqual(0);
      }
    }
    expect(of.requests).toEqual([]);
    expect(of.complaints).toEqual([]);
  }

  test("no sideways scrolling at 390, 1280 and 3840 px, folds open or closed", () => expectNoSideways(opened));

  test.each([
    ["light", 320],
    ["light", 1280],
    ["dark", 390],
    ["dark", 1920],
  ] as const)("accessible in %s at %d px", async (colorScheme, width) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    // open the folds: what is hidden is not looked at
    await openAll(page);
    expect(await accessFaults(page, ["tbody tr:nth-child(n+4)"])).toEqual([]);
  });

  // WCAG 2.2, success criterion 2.5.8 (24 px); for a finger our own 36 px
  test("what is pressed is high enough for a finger, and the page is accessible in forced colours", async () => {
    const touch = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;
    const held = await open(await sample(), { ...touch, forcedColors: "active" });
    await openAll(held.page);
    const [isTouch, low] = await held.page.evaluate(() => {
      const targets = document.querySelectorAll("main :is(summary, button, input[type=text]), .rail summary");
      const tooLow = [...targets]
        .filter((target) => target.checkVisibility() && target.getBoundingClientRect().height < 35.5)
        .map((target) => `${target.outerHTML.slice(0, 80)}: ${target.getBoundingClientRect().height}`);
      return [matchMedia("(pointer: coarse)").matches, tooLow] as const;
    });
    expect(isTouch).toBe(true);
    expect(low).toEqual([]);
    expect(await accessFaults(held.page, ["tbody tr:nth-child(n+4)"])).toEqual([]);
    await held.page.context().close();
  });

  test("a hostile book: nothing in it runs, every drawing is there, and nothing scrolls sideways", async () => {
    const html = await hostile();
    const ill = await open(html);
    expect(await tagsBuilt(ill.page)).toEqual(writtenTags(html));
    expect(await ill.page.evaluate(() => "hit" in globalThis)).toBe(false);
    expect(await ill.page.locator("svg.chart").count()).toBeGreaterThan(1);
    expect(await ill.page.locator("svg script, svg foreignObject, svg a").count()).toBe(0);
    await expectNoSideways(ill);
    await ill.page.context().close();
  });

  test("the browser builds the page as it is written", async () => {
    expect(await tagsBuilt(page)).toEqual(writtenTags(await sample()));
  });
});
