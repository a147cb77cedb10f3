import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { analyses } from "../../analyses/index.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { readBookFolder } from "../../src/cli/read-book-folder.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { answerQuestions } from "../engine/answer-questions.ts";
import { findBrowser } from "../find-browser.ts";
import { writeBigSheet } from "./big-sheet.ts";
import { benchBigSheetInPage } from "./page-big.ts";
import { medianMilliseconds, printRatio } from "./ratio.ts";

const kilobytes = (bytes: number): string => `${(bytes / 1024).toFixed(0)} kB`;

async function launch(executablePath: string): Promise<Browser> {
  // not bundled with the bench: it brings files of its own
  const library = "playwright-core";
  const { chromium } = (await import(library)) as typeof import("playwright-core");
  return chromium.launch({ executablePath, args: ["--headless", "--no-sandbox", "--disable-gpu"] });
}

/** From a click on the sample book to its first answer, and to its report, in a fresh page each time. */
async function timesInBrowser(browser: Browser, path: string, runs: number) {
  const [first, whole]: number[][] = [[], []];
  for (let run = 0; run < runs; run++) {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(path).href);
    const start = performance.now();
    await page.getByRole("button", { name: "Open the sample book" }).click();
    await page.locator(".answers-found .sentence").first().waitFor({ timeout: 120_000 });
    first!.push(performance.now() - start);
    await page.locator("iframe").waitFor({ timeout: 240_000 });
    whole!.push(performance.now() - start);
    await page.close();
  }
  const median = (times: number[]) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
  return { first: median(first!), whole: median(whole!) };
}

/** The page's weight, the time it takes to the first answer on the sample book, and how a report grows with its trays. */
export async function benchPage(): Promise<void> {
  const path = resolve("dist/page.html");
  const page = readFileSync(path);
  console.log(`page: ${kilobytes(page.length)}, ${kilobytes(gzipSync(page).length)} packed`);
  const sample = readBookFolder("data-samples/as-typed-book").sheets;
  const cleanAndAnswer = async (ask: typeof analyses) => answerQuestions(await cleanBook(sample), ask);
  const baselineMilliseconds = await medianMilliseconds(() => cleanAndAnswer(analyses.slice(0, 1)), 3);
  const executablePath = findBrowser();
  const folder = mkdtempSync(join(tmpdir(), "gramwright-bench-"));
  try {
    if (executablePath === undefined) {
      console.log("no browser found: install chromium, or set CHROMIUM_PATH, to time the page");
    } else {
      const browser = await launch(executablePath);
      try {
        const { first, whole } = await timesInBrowser(browser, path, 3);
        const baseline = "cleaning and the first question in Node, started already";
        printRatio({ work: "click to first answer in the page", baseline, milliseconds: first, baselineMilliseconds });
        printRatio({ work: "click to full report in the page", baseline, milliseconds: whole, baselineMilliseconds });
        const big = join(folder, "big.csv");
        writeBigSheet(big, 100_000);
        await benchBigSheetInPage(browser, path, big, 100_000);
      } finally {
        await browser.close();
      }
    }
    for (const trays of [250, 500, 1000]) {
      const sheet = join(folder, `${trays}.csv`);
      writeBigSheet(sheet, trays);
      const book = await cleanBook(readBookFolder(sheet).sheets);
      const html = await renderReport({ book, answers: answerQuestions(book), generator: { version: "bench" } });
      const perThousand = (Buffer.byteLength(html) / trays) * 1000;
      console.log(
        `report on ${trays} trays: ${kilobytes(Buffer.byteLength(html))}, ${kilobytes(perThousand)} per 1,000 trays`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
