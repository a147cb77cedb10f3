import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect } from "vitest";
import type { OpenedPage, PageOpener } from "../browser.ts";
import { builtFile } from "../built-file.ts";

/** The built page. */
export const pageHtml = (): string => readFileSync(builtFile("page.html"), "utf8");

/** The text of a file of the as-typed sample book. */
export const typedSheet = (path: string): string =>
  readFileSync(fileURLToPath(new URL(`../../data-samples/as-typed-book/${path}`, import.meta.url)), "utf8");

/** Two cooks of the as-typed book with costs and products; settings may be stated. */
export const smallBook = (settings = ""): (readonly [string, string])[] => [
  ["2026-spring.csv", typedSheet("harvests/2026-spring.csv").split("\n").slice(0, 26).join("\n")],
  ...["costs.csv", "products.csv"].map((name) => [name, typedSheet(name)] as const),
  ...(settings === "" ? [] : [["settings.csv", settings] as const]),
];

/** Drops files on the page, as a file manager would. */
export async function dropFiles(
  page: Page,
  files: ReadonlyArray<readonly [name: string, text: string]>,
): Promise<void> {
  const data = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const [name, text] of all) transfer.items.add(new File([text], name));
    return transfer;
  }, files);
  await page.dispatchEvent("main", "dragover", { dataTransfer: data });
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}

/** Drops files or folders of the disk on the page, as the browser itself hands them over. */
export async function dropFromDisk(page: Page, paths: string[]): Promise<void> {
  const client = await page.context().newCDPSession(page);
  const data = { items: [], files: paths, dragOperationsMask: 1 };
  for (const type of ["dragEnter", "dragOver", "drop"] as const) {
    await client.send("Input.dispatchDragEvent", { type, x: 200, y: 200, data });
  }
  await client.detach();
}

/** Waits until the report stands in its frame. */
export async function waitForReport(page: Page): Promise<void> {
  await page.locator("iframe.report-frame").waitFor();
  await page.frameLocator("iframe.report-frame").locator("h1").waitFor();
}

/** Waits until the sheets are cleaned and every question is answered; the report may still be drawn. */
export async function waitForAnswers(page: Page): Promise<void> {
  const isDrawing = page.locator(".work-text", { hasText: "Drawing the report" });
  await isDrawing.or(page.locator("iframe.report-frame")).first().waitFor();
}

/**
 * One page for all tests of a group, opened once and emptied after each of them; what it asked of the network or complained
 * of in one test is still known in the next.
 */
export function sharedPage(open: PageOpener["open"], options: BrowserContextOptions = {}): () => OpenedPage {
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await open(pageHtml(), { acceptDownloads: true, ...options });
  });
  afterEach(async () => {
    const out = opened.page.getByRole("button", { name: "Take all out" });
    const start = opened.page.getByText("Drop your sheets here");
    // files that a test left the page reading come after what was taken out
    while (!(await start.isVisible())) {
      await out.or(start).first().waitFor();
      if (await out.isVisible()) await out.click();
    }
  });
  afterAll(async () => {
    await opened?.page.context().close();
  });
  return () => opened;
}

/** Saves one of the files the page offers and gives its name and text. */
export async function saved(page: Page, what: string): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: what, exact: true }).click(),
  ]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

/** A page must neither ask the network for anything nor complain. */
export function expectQuiet({ requests, complaints }: { requests: string[]; complaints: string[] }): void {
  expect(requests).toEqual([]);
  expect(complaints).toEqual([]);
}
