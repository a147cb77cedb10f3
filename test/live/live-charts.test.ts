import type { Locator, Page } from "playwright-core";
import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { bookInFolder } from "./book-in-folder.ts";
import { downloaded, ready, sharedReport } from "./live-page.ts";
import { liveReport } from "./live-report.ts";

/** The figure of the yield, its question open. */
async function yieldFigure(page: Page): Promise<Locator> {
  const question = page.locator('.question[data-question="what-changed-the-yield"]');
  await question.evaluate((place) => place.setAttribute("open", ""));
  return question.locator("figure").first();
}

describeInBrowser("charts of a live report", ({ open }) => {
  const shared = sharedReport(open);

  test("charts: point to a tray, pick a dose, save as SVG and PNG", async () => {
    const { page } = shared();
    const figure = await yieldFigure(page);
    const image = figure.locator("svg.chart").filter({ visible: true });
    await image.scrollIntoViewIfNeeded();
    await image.hover();
    const pick = page.locator(".dose-picks button").first();
    await pick.click();
    await page.locator('[data-grid="trays"] .grid-count', { hasText: "of 24 rows" }).waitFor();
    expect(await pick.getAttribute("aria-pressed")).toBe("true");
    expect(await figure.locator(".pick.faded").count()).toBeGreaterThan(0);
    expect(await figure.locator(".pick.dose-1.faded").count()).toBe(0);
    expect(await page.locator(".wall li.faded").count()).toBeGreaterThan(0);
    await page.keyboard.press("Escape");
    expect(await page.locator(".faded").count()).toBe(0);
    expect(await pick.getAttribute("aria-pressed")).toBe("false");
    await image.scrollIntoViewIfNeeded();
    const box = (await image.boundingBox())!;
    let found = "";
    for (let x = 0.1; x < 0.9 && found === ""; x += 0.02)
      for (let y = 0.15; y < 0.85 && found === ""; y += 0.04) {
        await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
        if (await page.locator(".tray-card").isVisible())
          found = (await page.locator(".tray-card").textContent()) ?? "";
      }
    expect(found).toMatch(/^Tray \S+/);
    const svg = await downloaded(page, figure.getByRole("button", { name: "Save as SVG" }));
    expect(svg.bytes.toString("utf8")).toMatch(/^<svg .*fill="#/s);
    const png = await downloaded(page, figure.getByRole("button", { name: "Save as PNG" }));
    expect(png.bytes.subarray(1, 4).toString("latin1")).toBe("PNG");
  });

  test("charts by keyboard: one stop, arrows between marks, Space shows a dose's trays, Escape all, Enter goes to the row", async () => {
    const { page, complaints } = shared();
    const figure = await yieldFigure(page);
    const stop = figure.locator("[data-marks]").filter({ visible: true });
    const said = page.locator(".live-bar [role=status]");
    expect(await figure.locator('[tabindex="0"]').filter({ visible: true }).count()).toBe(1);
    await stop.focus();
    await said.getByText(/^Tray \S+, Outcome/).waitFor({ state: "attached" });
    const ring = stop.locator(".mark-ring");
    const at = async () => (await ring.boundingBox())!;
    const first = await at();
    const names = new Set<string>();
    for (const key of ["ArrowRight", "ArrowDown", "ArrowRight", "End", "Home", "ArrowUp"]) {
      await page.keyboard.press(key);
      names.add((await said.textContent())!);
      if (key === "ArrowRight") expect((await at()).x).toBeGreaterThan(first.x);
      expect(await page.locator(".tray-card").isVisible()).toBe(true);
    }
    expect(names.size).toBeGreaterThan(2);
    const tray = /^Tray (\S+),/.exec((await said.textContent())!)![1]!;
    const count = page.locator('[data-grid="trays"] .grid-count');
    await page.keyboard.press("Space");
    expect(await count.textContent()).toMatch(/of 24 rows: /);
    expect(await page.locator('.dose-picks [aria-pressed="true"]').count()).toBe(1);
    await page.keyboard.press("Escape");
    expect(await count.textContent()).toMatch(/^24 rows/);
    expect(await page.locator(".tray-card").isVisible()).toBe(false);
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    const row = await page.evaluate(() => document.activeElement?.closest(".grid-row")?.textContent);
    expect(row).toContain(/^Row of tray (\S+)\.$/.exec((await said.textContent())!)![1]);
    expect(tray).not.toBe("");
    expect(complaints).toEqual([]);
  });

  test("a chart of chamber runs: a run shows the trays it stands for", async () => {
    const whole = await bookInFolder("data-samples/demo-book");
    // chambers swap their temperatures from cook to cook, and nothing else varies
    const trays = whole.trays.slice(0, 48).map(({ supplementGrade: _, ...tray }, index) => ({
      ...tray,
      inoculumMillilitres: 9,
      chamber: `F${(index % 4) + 1}`,
      fruitingCelsius: (index + Math.floor(index / 12)) % 2 === 0 ? 16 : 19,
      batch: `B${Math.floor(index / 12)}`,
    }));
    const { page } = await open(await liveReport({ ...whole, trays }));
    await ready(page);
    const question = page.locator('.question[data-question="does-temperature-pay"]');
    await question.evaluate((place) => place.setAttribute("open", ""));
    const count = page.locator('[data-grid="trays"] .grid-count');
    await question.locator("[data-marks]").filter({ visible: true }).focus();
    await page
      .locator(".live-bar [role=status]")
      .getByText(/^Chamber run .*, Trays 3$/)
      .waitFor({ state: "attached" });
    await page.keyboard.press("Enter");
    expect(await count.textContent()).toMatch(/^3 of 48 rows/);
    await page.context().close();
  });
});
