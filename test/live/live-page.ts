import { readFileSync } from "node:fs";
import type { BrowserContextOptions, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect } from "vitest";
import type { Book } from "../../src/records/book.ts";
import type { OpenedPage, PageOpener } from "../browser.ts";
import { bookInFolder } from "./book-in-folder.ts";
import { liveReport } from "./live-report.ts";

/** Some of the demo farm's trays: enough for every kind of answer, quick enough to fit again and again. */
export const book = bookInFolder("data-samples/demo-book").then(
  (whole): Book => ({ ...whole, trays: whole.trays.slice(0, 24) }),
);
export const report = book.then(liveReport);

/** Waits until a live report answers, and opens its sheets. */
export async function ready(page: Page): Promise<void> {
  await page.locator("html.live").waitFor();
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll<HTMLDetailsElement>("#sheets .fold")) fold.open = true;
  });
}

export const grid = (page: Page, sheet: string): Locator => page.locator(`[data-grid="${sheet}"] .grid-box`);

/** A cell by its row's name and its column's head. */
export async function cellOf(page: Page, sheet: string, row: string, head: string): Promise<Locator> {
  const box = grid(page, sheet);
  const heads = await box.locator(".head-label").allInnerTexts();
  const column = heads.findIndex((text) => text.replace(/\s+/g, " ").startsWith(head));
  expect(column).toBeGreaterThanOrEqual(0);
  return box.locator(".grid-row", { hasText: row }).first().locator(`[data-column="${column}"]`);
}

export async function type(page: Page, cell: Locator, text: string): Promise<void> {
  await cell.click();
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

export async function downloaded(page: Page, button: string | Locator): Promise<{ name: string; bytes: Buffer }> {
  const target = typeof button === "string" ? page.getByRole("button", { name: button }) : button;
  const [file] = await Promise.all([page.waitForEvent("download"), target.click()]);
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** One report for all tests of a group, opened once and taken back to its saved book after each of them. */
export function sharedReport(open: PageOpener["open"], options: BrowserContextOptions = {}): () => OpenedPage {
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await open(await report, { acceptDownloads: true, ...options });
    await ready(opened.page);
  });
  afterEach(async () => {
    await opened.page.keyboard.press("Escape");
    const back = opened.page.getByRole("button", { name: "Back to the saved book" });
    if (await back.isVisible()) await back.click();
  });
  afterAll(async () => {
    await opened?.page.context().close();
  });
  return () => opened;
}
