import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import type { Frame, Locator, Page } from "playwright-core";
import { expect, test } from "vitest";
import { bytesOf91 } from "../../src/live/base91.mjs";
import { mostLiveTrays } from "../../src/live/model/book-parts.ts";
import { describeInBrowser } from "../browser.ts";
import { builtFile } from "../built-file.ts";
import { settled } from "../live/settled.ts";
import { dropFiles, expectQuiet, pageHtml, saved, smallBook, typedSheet, waitForReport } from "./drop-page.ts";

const built = (name: string): string => readFileSync(builtFile(name), "utf8");

const reportFrame = (page: Page): Frame => page.frames().find((frame) => frame !== page.mainFrame())!;

/** Opens the fold that holds the cost sheet. */
const openCosts = (frame: Frame): Promise<void> =>
  frame.locator("#costs-sheet > details").evaluate((fold: HTMLDetailsElement) => {
    fold.open = true;
  });

/** The first cost line's price of a pack. */
async function packPrice(frame: Frame): Promise<Locator> {
  const box = frame.locator('[data-grid="costs"] .grid-box');
  const heads = await box.locator(".head-label").allInnerTexts();
  const column = heads.findIndex((text) => text.replace(/\s+/g, " ").startsWith("Price of a pack"));
  expect(column).toBeGreaterThan(0);
  return box.locator(`[data-row="0"] [data-column="${column}"]`);
}

/** Types a new price of a pack, and waits until the price list has moved. */
async function changePrice(page: Page, frame: Frame, price: string): Promise<void> {
  await openCosts(frame);
  await (await packPrice(frame)).click();
  await page.keyboard.type(price);
  await page.keyboard.press("Enter");
  await frame.locator(".live-bar .moved").first().waitFor();
}

test("core and either part put end to end are one gzip file, and the page knows the live one by its hash", () => {
  const { script, program, programHash } = JSON.parse(built("live.json")) as Record<string, string>;
  const text = gunzipSync(bytesOf91(program!));
  expect(`sha256-${createHash("sha256").update(text).digest("base64")}`).toBe(programHash);
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(pageHtml())![1]!;
  expect(policy).toContain(`'${programHash}'`);
  expect(policy).toContain(`'sha256-${createHash("sha256").update(script!).digest("base64")}'`);
  // the start that worker and live program share stands in the page once
  const start = program!.slice(0, 1000);
  expect(pageHtml().split(start)).toHaveLength(2);
});

describeInBrowser("the live report of the drop page", ({ open }) => {
  test("a book of more trays than are sent live: its report runs nothing, and the page says so", async () => {
    const folder = mkdtempSync(join(tmpdir(), "gramwright-big-"));
    const opened = await open(pageHtml(), { acceptDownloads: true });
    const { page } = opened;
    try {
      // little is asked of trays without a dose, and nothing of it matters here
      const rows = Array.from({ length: mostLiveTrays + 1 }, (_, tray) => `T${tray + 1},${20 + (tray % 7)}`);
      writeFileSync(join(folder, "big.csv"), `tray_id,dry_g\n${rows.join("\n")}\n`);
      await page.setInputFiles("input.chooser", join(folder, "big.csv"));
      await waitForReport(page);
      expect(await page.locator(".report-block > .quiet").textContent()).toContain("without sheets to change");
      expect((await saved(page, "Report")).text.includes("<script")).toBe(false);
      expect(await reportFrame(page).locator("script, .live-bar").count()).toBe(0);
      expectQuiet(opened);
    } finally {
      rmSync(folder, { recursive: true, force: true });
      await page.context().close();
    }
  });

  test("a browser that cannot unpack the program says so", async () => {
    const { page } = await open(pageHtml(), {}, () => Reflect.deleteProperty(globalThis, "DecompressionStream"));
    await page.getByRole("button", { name: "Open the sample book" }).click();
    await page.getByRole("alert").waitFor();
    expect(await page.getByRole("alert").textContent()).toMatch(/this browser is too old.*use a newer one/);
    await page.context().close();
  });

  test("in the page: a price changed moves the price list, the changed sheet is saved and dropped again; the saved report opened from disk is as live", async () => {
    const opened = await open(pageHtml(), { acceptDownloads: true });
    const { page } = opened;
    await dropFiles(page, smallBook(typedSheet("settings.csv")));
    await waitForReport(page);
    const { text } = await saved(page, "Report");
    const frame = reportFrame(page);
    await frame.locator("html.live").waitFor();
    // nothing in the frame reaches the page around it
    expect(await frame.evaluate(() => self.origin)).toBe("null");
    await changePrice(page, frame, "155");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      frame.getByRole("button", { name: "Save costs.csv" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("costs.csv");
    const costs = readFileSync(await download.path(), "utf8");
    expect(costs.split("\r\n")[1]).toContain(",155,");
    const before = await page.locator(".sheet-list li").count();
    await dropFiles(page, [["costs.csv", costs]]);
    await page.getByText("The full report follows the answers.").waitFor();
    await waitForReport(page);
    expect(await page.locator(".sheet-list li").count()).toBe(before);
    await reportFrame(page).locator("html.live").waitFor();
    await openCosts(reportFrame(page));
    expect(await (await packPrice(reportFrame(page))).textContent()).toBe("155");
    expectQuiet(opened);
    await page.context().close();

    // the parts of the command line's reports
    const { script, program, programHash } = JSON.parse(built("live.json")) as Record<string, string>;
    const parts = [`<script type="text/plain" id="live-program">${program}</script>`, `<script>${script}</script>`];
    expect(parts.map((part) => text.includes(part))).toEqual([true, true]);
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(text)![1]!;
    expect(policy).toContain(programHash);
    expect(policy).toContain("connect-src 'none'");

    const report = await open(text);
    await report.page.locator("html.live").waitFor();
    await changePrice(report.page, report.page.mainFrame(), "155");
    await settled(report.page);
    expectQuiet(report);
    await report.page.context().close();
  });
});
