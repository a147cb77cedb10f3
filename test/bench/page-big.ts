import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { readBookFolder } from "../../src/cli/read-book-folder.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { answerQuestions } from "../engine/answer-questions.ts";
import { printRatio } from "./ratio.ts";

/** The most memory any of the browser's page processes has held, in kB; undefined where the system does not tell. */
async function peakKilobytes(browser: Browser): Promise<number | undefined> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send("SystemInfo.getProcessInfo");
  await session.detach();
  const peaks = processInfo
    .filter(({ type }) => type === "renderer")
    .flatMap(({ id }) => {
      try {
        return [Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, "utf8"))?.[1])];
      } catch (error) {
        if (error instanceof Error && "code" in error) return []; // no such system, or the process is gone
        throw error;
      }
    });
  return peaks.length === 0 ? undefined : Math.max(...peaks);
}

/**
 * One big sheet chosen on the page, up to its full report: the time beside the same work in Node, the longest the page
 * stood still, and the memory its process held at most.
 */
export async function benchBigSheetInPage(
  browser: Browser,
  pagePath: string,
  sheet: string,
  rows: number,
): Promise<void> {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(pagePath).href);
  await page.evaluate(() => {
    let last = performance.now();
    const held = { longest: 0 };
    Object.assign(window, { held });
    const tick = (now: number) => {
      held.longest = Math.max(held.longest, now - last);
      last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
  const start = performance.now();
  await page.setInputFiles("input[type=file]", sheet);
  await page.locator("iframe").waitFor({ timeout: 1_800_000 });
  const milliseconds = performance.now() - start;
  const longest = await page.evaluate(() => (window as unknown as { held: { longest: number } }).held.longest);
  const peak = await peakKilobytes(browser);
  await page.close();

  const begun = performance.now();
  const book = await cleanBook(readBookFolder(sheet).sheets);
  await renderReport({ book, answers: answerQuestions(book), generator: { version: "bench" } });
  const baselineMilliseconds = performance.now() - begun;
  const work = `${rows} rows, from the choice to the full report in the page`;
  printRatio({ work, baseline: "the same in Node", milliseconds, baselineMilliseconds });
  console.log(`  the page stood still for ${longest.toFixed(0)} ms at most`);
  if (peak !== undefined) console.log(`  peak memory of the page ${(peak / 1024).toFixed(0)} MB`);
}
