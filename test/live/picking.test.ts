import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { cellOf, sharedReport, type } from "./live-page.ts";
import { settled } from "./settled.ts";

describeInBrowser("picking out", ({ open }) => {
  const shared = sharedReport(open);

  test("a cook fades every other cook's trays, a product the other products; Escape shows all", async () => {
    const { page, complaints } = shared();
    const faded = (where: string) => page.locator(`${where} .faded, ${where}.faded`).count();
    const all = await page.locator(".wall li.pick").count();
    const own = await page.locator(".wall li.cook-C2").count();
    expect(own).toBeGreaterThan(0);
    await page.locator('.wall button[data-pick="cook-C2"]').click();
    expect(await page.locator(".wall li.faded").count()).toBe(all - own);
    expect(await page.locator(".chart .cook-C2.faded").count()).toBe(0);
    expect(await page.locator(".chart .cook-C1:not(.faded)").count()).toBe(0);
    await page.keyboard.press("Escape");
    expect(await faded("body")).toBe(0);

    const product = page.locator(".prices tbody tr").nth(1);
    await product.locator("button[data-pick]").click();
    expect(await page.locator(".prices tbody tr.faded").count()).toBe(
      (await page.locator(".prices tbody tr").count()) - 1,
    );
    expect(await product.getAttribute("class")).not.toContain("faded");
    // trays are of no product: they stay
    expect(await page.locator(".wall li.faded").count()).toBe(0);
    await page.keyboard.press("Escape");
    expect(await faded("body")).toBe(0);
    expect(complaints).toEqual([]);
  });

  test("words that are known are offered, dates are picked from a calendar", async () => {
    const { page } = shared();
    const field = page.locator('[data-grid="trays"] .cell-field');
    await (await cellOf(page, "trays", "C1-002", "Strain")).dblclick();
    const list = await field.getAttribute("list");
    expect(await page.locator(`datalist[id="${list}"] option`).count()).toBeGreaterThan(0);
    await page.keyboard.press("Escape");
    await (await cellOf(page, "trays", "C1-002", "Harvested")).dblclick();
    expect(await field.getAttribute("type")).toBe("date");
    await field.fill("2026-04-02");
    await page.keyboard.press("Enter");
    expect(await page.locator(".live-bar .change-list").textContent()).toContain("2026-04-02");
    // typed over, it is a text like any other
    await (await cellOf(page, "trays", "C1-002", "Harvested")).click();
    await page.keyboard.type("3 April 2026");
    expect(await field.getAttribute("type")).toBe("text");
    await page.keyboard.press("Escape");
  });

  test("Save, the changed answers and the contents are within ten key presses of anywhere", async () => {
    const { page } = shared();
    await type(page, await cellOf(page, "costs", "cracked sorghum", "Price of a pack"), "155");
    await settled(page);
    // an answer drawn anew keeps the inputs beside it
    expect(await page.locator("#q-what-does-a-good-gram-cost .what input").count()).toBeGreaterThan(0);
    expect(await page.locator("#q-what-does-a-good-gram-cost .what h4").textContent()).toMatch(/price \(€\) were/);
    const stands = (selector: string) => page.evaluate((of) => document.activeElement?.matches(of) ?? false, selector);
    const presses = async (keys: ReadonlyArray<string>, goal: string): Promise<number> => {
      for (const [index, key] of keys.entries()) {
        if (await stands(goal)) return index;
        await page.keyboard.press(key);
      }
      return (await stands(goal)) ? keys.length : 99;
    };
    for (const from of [
      ".skip",
      ".rail a",
      ".answers a",
      ".q .fold > summary",
      ".what input",
      "#q-what-price-to-ask input",
      "#sheets summary",
      '[data-grid="costs"] [tabindex="0"]',
      "#print-all",
    ]) {
      await page.locator(from).first().focus();
      expect(await presses(["F6", "F6", "F6", "F6"], ".rail *"), `contents from ${from}`).toBeLessThan(10);
      await page.locator(from).first().focus();
      const toBar = await presses(["F6", "F6", "F6", "F6"], ".live-bar *");
      const tabs = Array.from({ length: 10 }, () => "Tab");
      const toAnswers = await presses(tabs, ".live-bar .moved-list a");
      const toSave = await presses(tabs, ".live-bar button.strong");
      expect(toBar + toAnswers, `a changed answer from ${from}`).toBeLessThanOrEqual(10);
      expect(toBar + toAnswers + toSave, `Save from ${from}`).toBeLessThanOrEqual(10);
    }
    const [file] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
    expect(file.suggestedFilename()).toBe("costs.csv");
  });
});
