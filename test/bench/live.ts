import { accessSync, constants, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { openBook } from "../../src/cli/open-book.ts";
import { liveParts } from "../../src/live/live-parts.ts";
import type { Book } from "../../src/records/book.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { answerQuestions } from "../engine/answer-questions.ts";
import { writeBigSheet } from "./big-sheet.ts";

/** one frame of a screen that draws sixty a second, in milliseconds */
const frame = 1000 / 60;
/** what a refit may take, in milliseconds */
const refit = 200;
/** within which every answer of a book of a season's trays is wanted, in milliseconds */
const answered = 1000;

/** The browser on the PATH or in CHROMIUM_PATH. @throws Error if there is none */
function browserPath(): string {
  const names = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome"];
  const folders = (process.env.PATH ?? "").split(delimiter);
  const found = [
    process.env.CHROMIUM_PATH,
    ...folders.flatMap((folder) => names.map((name) => join(folder, name))),
  ].find((place) => {
    if (!place) return false;
    try {
      accessSync(place, constants.X_OK);
      return true;
    } catch {
      return false; // not there, or not ours to run: look further
    }
  });
  if (found === undefined) throw new Error("benchLive: no browser found: install chromium, or set CHROMIUM_PATH");
  return found;
}

/** A book of so many trays with the demo farm's costs and products. */
async function bookOf(trays: number, folder: string): Promise<Book> {
  const path = join(folder, `book-${trays}`);
  mkdirSync(join(path, "harvests"), { recursive: true });
  for (const sheet of ["costs.csv", "products.csv", "settings.csv"])
    cpSync(`data-samples/demo-book/${sheet}`, join(path, sheet));
  writeBigSheet(join(path, "harvests", "all.csv"), trays);
  return openBook(path, { say: () => undefined, done: () => undefined });
}

const quantile = (values: ReadonlyArray<number>, share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;

function printTimes(work: string, times: ReadonlyArray<number>, goal: number, goalName: string): void {
  const [middle, late] = [quantile(times, 0.5), quantile(times, 0.95)];
  const verdict = late <= goal ? "within" : middle <= goal ? "median within" : "over";
  console.log(
    `${work} / ${goalName}: median ${(middle / goal).toFixed(2)}, 95th percentile ${(late / goal).toFixed(2)}, ${verdict} (${middle.toFixed(1)} and ${late.toFixed(1)} ms / ${goal.toFixed(1)} ms, ${times.length} edits)`,
  );
}

/** Opens every fold, so that each grid has its cells. */
const openFolds = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
  });

/** Milliseconds of the page's own work from a committed cell to a page laid out again, for each of several edits. */
async function editTimes(page: Page, sheet: string, column: string, edits: number): Promise<number[]> {
  const box = page.locator(`[data-grid="${sheet}"] .grid-box`);
  const heads = await box.locator(".head-label").allInnerTexts();
  const at = heads.findIndex((text) => text.startsWith(column));
  const times: number[] = [];
  for (let edit = 0; edit < edits; edit++) {
    await box.locator(`[data-row="0"] [data-column="${at}"]`).click();
    await page.keyboard.type(String(20 + edit / 4));
    times.push(
      await page.evaluate(async () => {
        const field = document.activeElement!;
        const before = document.querySelector(".live-bar")!.textContent;
        const start = performance.now();
        field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, cancelable: true }));
        // the page redraws in a microtask
        for (let turn = 0; turn < 50 && document.contains(field); turn++) await Promise.resolve();
        document.body.getBoundingClientRect();
        const time = performance.now() - start;
        if (document.querySelector(".live-bar")!.textContent === before)
          throw new Error("the edit did not reach the prices");
        return time;
      }),
    );
  }
  return times;
}

/** Milliseconds from an edit to each headline sentence and to each answer with its charts, by what was shown. */
async function answerTimes(page: Page, edits: number): Promise<Map<string, number[]>> {
  const times = new Map<string, number[]>();
  const box = page.locator('[data-grid="trays"] .grid-box');
  const heads = await box.locator(".head-label").allInnerTexts();
  const at = heads.findIndex((text) => text.startsWith("Dry weight"));
  for (let edit = 0; edit < edits; edit++) {
    await page.evaluate(() => performance.clearMeasures());
    await box.locator(`[data-row="${edit}"] [data-column="${at}"]`).click();
    await page.keyboard.type(String(30 + edit));
    await page.keyboard.press("Enter");
    // the state still says so of the edit before, until the page has turned to this one
    await page.waitForFunction(
      () =>
        performance.getEntriesByType("measure").length > 0 &&
        document.querySelector(".live-state")?.textContent?.startsWith("All"),
      null,
      { timeout: 600_000, polling: 100 },
    );
    const entries = await page.evaluate(() =>
      performance.getEntriesByType("measure").map(({ name, duration }) => ({ name, duration })),
    );
    for (const { name, duration } of entries) {
      const shown = name.replace("gramwright ", "");
      times.set(shown, [...(times.get(shown) ?? []), duration]);
    }
  }
  return times;
}

/** Runs in a page before anything else: workers that never answer, so that the page's own work is timed alone. */
function stopWorkers(): void {
  Object.assign(globalThis, {
    Worker: class extends EventTarget {
      postMessage(): void {}
      terminate(): void {}
    },
  });
}

/** How soon each answer of the demo book follows an edit: of a weight, with everything that rests on it, and of a price. */
export async function benchLiveAnswers(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-bench-"));
  const driver = "playwright-core";
  const { chromium } = (await import(driver)) as typeof import("playwright-core");
  const browser = await chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const book = await openBook("data-samples/demo-book", { say: () => undefined, done: () => undefined });
    const generator = { version: "bench" };
    const html = await renderReport({ book, answers: answerQuestions(book), generator, live: liveParts(book)! });
    const file = join(folder, "live.html");
    writeFileSync(file, html);
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
    await page.goto(pathToFileURL(file).href);
    await page.locator("html.live").waitFor();
    await openFolds(page);
    await page.waitForTimeout(4000);
    const times = await answerTimes(page, 12);
    const own = [...times].filter(([shown]) => shown.startsWith("answer "));
    const medians = own.map(([shown, each]) => ({ shown, median: quantile(each, 0.5) }));
    const late = medians.filter(({ median }) => median > answered);
    printTimes(
      `edit of a weight to any one answer, demo book`,
      own.flatMap(([, each]) => each),
      answered,
      "1 s",
    );
    const last = Math.max(...medians.map(({ median }) => median));
    console.log(
      `edit of a weight to the last answer, demo book / 1 s: ${(last / answered).toFixed(2)}, ${late.length === 0 ? "all within" : `${late.length} of ${medians.length} over: ${late.map(({ shown, median }) => `${shown.replace("answer ", "")} ${median.toFixed(0)} ms`).join(", ")}`}`,
    );
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the live report weighs per thousand trays, and how soon cells, prices and answers follow an edit at 500 trays. */
export async function benchLive(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-bench-"));
  // the driver stays out of the bundle
  const driver = "playwright-core";
  const { chromium } = (await import(driver)) as typeof import("playwright-core");
  try {
    const thousand = await bookOf(1000, folder);
    const parts = liveParts(thousand)!;
    const generator = { version: "bench" };
    const bare = await renderReport({ book: thousand, answers: [], generator });
    const live = await renderReport({ book: thousand, answers: [], generator, live: parts });
    console.log(
      `report of 1000 trays without answers, live / static: ${(live.length / bare.length).toFixed(2)} (${(live.length / 1e6).toFixed(2)} MB / ${(bare.length / 1e6).toFixed(2)} MB; program ${((parts.program?.length ?? 0) / 1e6).toFixed(2)} MB, data ${(parts.data.length / 1e6).toFixed(2)} MB)`,
    );
    const book = await bookOf(500, folder);
    const html = await renderReport({ book, answers: answerQuestions(book), generator, live: liveParts(book)! });
    const file = join(folder, "live.html");
    writeFileSync(file, html);
    const browser = await chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox", "--disable-gpu"] });
    const address = pathToFileURL(file).href;
    const openPage = async (isAlone: boolean): Promise<Page> => {
      const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
      if (isAlone) await page.addInitScript(stopWorkers);
      await page.goto(address);
      await page.locator("html.live").waitFor();
      await openFolds(page);
      return page;
    };
    const start = performance.now();
    const page = await openPage(false);
    console.log(`report of 500 trays opened and live after ${(performance.now() - start).toFixed(0)} ms`);
    const alone = await openPage(true);
    for (const [where, on] of [
      ["workers at rest", alone],
      ["answers being worked out beside it", page],
    ] as const) {
      const edits = 40;
      printTimes(
        `edit of a cost to repaint, 500 trays, ${where}`,
        await editTimes(on, "costs", "Price of a pack", edits),
        frame,
        "one frame",
      );
      printTimes(
        `edit of a price to repaint, 500 trays, ${where}`,
        await editTimes(on, "products", "Price now", edits),
        frame,
        "one frame",
      );
    }
    await alone.close();
    // what the edits before have set going comes to its end first
    await page.waitForTimeout(1000);
    await page.waitForFunction(() => document.querySelector(".live-state")?.textContent?.startsWith("All"), null, {
      timeout: 600_000,
    });
    const answers = await answerTimes(page, 5);
    for (const [question, times] of [...answers].sort(([, a], [, b]) => quantile(a, 0.5) - quantile(b, 0.5)))
      printTimes(`edit of a weight to ${question}`, times, refit, "200 ms");
    for (const [what, start] of [
      ["headline sentence", "sentence "],
      ["answer with its charts", "answer "],
    ] as const) {
      const times = [...answers].flatMap(([shown, own]) => (shown.startsWith(start) ? own : []));
      printTimes(`edit of a weight to any one ${what}`, times, refit, "200 ms");
    }
    await browser.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
