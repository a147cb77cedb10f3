import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { sharedReport } from "./live-page.ts";

/** presses within which Save and the changed answers are reached from anywhere */
const mostPresses = 10;

/** Where a reader may stand: what is focused before the keys are counted. */
const starts = [
  ["the top of the page", "a.skip"],
  ["the contents", ".rail a >> nth=5"],
  ["a front row", ".answers a >> nth=4"],
  ["a fold of a question in the middle", ".q .fold > summary >> nth=6"],
  ["an input beside an answer", ".what input >> nth=1"],
  ["a cell of a sheet", "#sheets .grid-box [tabindex='0'] >> nth=0"],
  ["the end of the page", "#print-all"],
] as const;

/** What the focused element is: "Save costs.csv", "What a gram cost", or nothing of the bar. */
const inBar = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    return at?.closest(".live-bar") ? at.textContent.replace(/\s+/g, " ").trim() : "";
  });

/** Presses from where the focus is until it stands on what is sought: F6 until the bar is reached, then Tab. */
async function pressesTo(page: Page, sought: RegExp): Promise<number> {
  for (let presses = 0; presses <= 40; presses++) {
    const at = await inBar(page);
    if (sought.test(at)) return presses;
    await page.keyboard.press(at === "" ? "F6" : "Tab");
  }
  return Number.POSITIVE_INFINITY;
}

describeInBrowser("Save and the changed answers by keyboard", ({ open }) => {
  const opened = sharedReport(open, { viewport: { width: 1280, height: 900 } });

  test.each(starts)("within ten presses from %s", async (_, start) => {
    const { page } = opened();
    const price = page.locator("#q-what-does-a-good-gram-cost .what input").first();
    await price.fill("95");
    await price.press("Enter");
    await page.locator(".moved-list a").first().waitFor();
    await page.locator(".live-state", { hasText: "follow" }).waitFor();
    for (const sought of [/^Save costs\.csv$/, /^What a gram cost/]) {
      await page.locator(start).focus();
      expect(await pressesTo(page, sought), String(sought)).toBeLessThanOrEqual(mostPresses);
    }
    // and Enter on the last one goes there
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => location.hash)).toBe("#q-what-does-a-good-gram-cost");
  });

  test("Ctrl and S save at once", async () => {
    const { page } = opened();
    const price = page.locator("#q-what-does-a-good-gram-cost .what input").first();
    await price.fill("96");
    await price.press("Enter");
    await page.locator(".live-buttons .strong").waitFor();
    const [file] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
    expect(file.suggestedFilename()).toBe("costs.csv");
  });
});
