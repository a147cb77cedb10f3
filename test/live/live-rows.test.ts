import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { book, downloaded, grid, ready, sharedReport } from "./live-page.ts";

describeInBrowser("rows of a live report", ({ open }) => {
  const shared = sharedReport(open);

  test("rows by keyboard: add and fill one, delete and bring back, undo, a reload, and the saved sheet", async () => {
    const { page, complaints } = shared();
    const box = grid(page, "costs");
    const count = page.locator('[data-grid="costs"] .grid-count');
    const said = page.locator(".live-bar [role=status]");
    await box.locator('[tabindex="0"]').focus();
    await page.keyboard.press("Control+Enter");
    expect(await said.textContent()).toContain("Row added");
    for (const text of ["gloves", "consumable", "8.40", "100", "piece", "2", "piece", "tray"]) {
      await page.keyboard.type(text);
      await page.keyboard.press("Tab");
    }
    const added = box.locator(".grid-row.added");
    expect(await added.first().textContent()).toMatch(/new\s+gloves/);
    expect(await added.locator("[aria-invalid]").count()).toBe(0);
    expect(await count.textContent()).toContain("1 added");
    await page.locator(".live-bar .moved").first().waitFor();
    await page.keyboard.press("Control+Home");
    await page.keyboard.press("Control+Delete");
    const gone = box.locator(".grid-row.deleted");
    expect(await gone.textContent()).toMatch(/deleted\s+cracked sorghum/);
    await page.keyboard.type("7");
    expect(await said.textContent()).toContain("bring it back first");
    await page.keyboard.press("Control+z");
    expect(await gone.count()).toBe(0);
    await page.keyboard.press("Control+y");
    expect(await gone.count()).toBe(1);

    await page.reload();
    await ready(page);
    expect(await gone.textContent()).toMatch(/cracked sorghum/);
    expect(await page.locator(".live-bar").textContent()).toMatch(/cost line cracked sorghum: .*deleted/);
    expect(await page.locator(".live-bar").textContent()).toContain("costs: rows added: 1");
    const saved = await downloaded(page, "Save costs.csv");
    const lines = saved.bytes.toString("utf8").trimEnd().split("\r\n");
    expect(lines.length).toBe((await book).costLines!.length + 1);
    expect(lines.some((line) => line.startsWith("cracked sorghum"))).toBe(false);
    expect(lines.at(-1)).toMatch(/^gloves,consumable,8\.4,100,each,2,each,tray,/);

    await box.locator('[tabindex="0"]').focus();
    await page.keyboard.press("Control+Home");
    await page.keyboard.press("Control+Delete");
    expect(await gone.count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  test("trays by keyboard: a block pasted past the last row adds rows, answers follow, undo takes all of it back", async () => {
    const { page } = shared();
    const box = grid(page, "trays");
    const rows = (await book).trays.length;
    await box.locator('[tabindex="0"]').focus();
    await page.keyboard.press("Control+ArrowDown");
    await page.keyboard.press("Control+Enter");
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.setData("text/plain", "Z-1\nZ-2\nZ-3\n");
      document.activeElement!.dispatchEvent(
        new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }),
      );
    });
    const names = () => box.locator(".grid-row.added [role=rowheader]").allInnerTexts();
    expect((await names()).map((text) => text.replace(/\s+/g, " "))).toEqual(["new Z-1", "new Z-2", "new Z-3"]);
    expect(await page.locator('[data-grid="trays"] .grid-count').textContent()).toContain(`${rows + 3} rows`);
    await page.locator(".q > .was-sentence").first().waitFor();
    const { bytes } = await downloaded(page, page.locator(".live-bar button.strong"));
    expect(
      bytes
        .toString("utf8")
        .trimEnd()
        .split("\r\n")
        .slice(-3)
        .map((line) => line.split(",")[0]),
    ).toEqual(["Z-1", "Z-2", "Z-3"]);
    await box.locator('[tabindex="0"]').focus();
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    expect(await names()).toEqual([]);
    expect(await page.evaluate(() => document.activeElement?.closest(".grid-box") !== null)).toBe(true);
  });
});
