import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { writePage } from "../../src/cli/command-page.ts";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { accessFaults } from "../accessible.ts";
import { writeBigSheet } from "../bench/big-sheet.ts";
import { describeInBrowser } from "../browser.ts";
import { hostileSheet, riskyCells } from "../cli/hostile-sheet.ts";
import {
  dropFiles,
  expectQuiet,
  pageHtml,
  saved,
  sharedPage,
  typedSheet,
  waitForAnswers,
  waitForReport,
} from "./drop-page.ts";

/** Dates that can be read in two ways, and nothing else in the sheet that decides. */
const eitherDates =
  "tray,dose ml,fresh g,dry g,inoculated,picked,outcome\n1,5,42,5,3/4/26,5/6/26,good\n2,5,31,4,3/4/26,5/6/26,good\n3,10,43,5,3/4/26,5/6/26,good\n4,10,44,5,3/4/26,5/6/26,good\n";

const html = pageHtml();

/** Nothing is wrong in light on a wide window, nor in dark on a narrow one; the report in the frame is tested on its own. */
async function expectAccessible(page: Page): Promise<void> {
  for (const [colorScheme, width] of [
    ["light", 1280],
    ["dark", 390],
  ] as const) {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    expect(await accessFaults(page, ["iframe"]), `${colorScheme}, ${width} px`).toEqual([]);
  }
  await page.setViewportSize({ width: 1280, height: 720 });
}

describeInBrowser("one page, emptied after each", ({ open }) => {
  const shared = sharedPage(open);

  test("one click answers what the dates leave open, cleans again, and can be taken back", async () => {
    const opened = shared();
    const { page } = opened;
    await dropFiles(page, [["spring.csv", eitherDates]]);
    await waitForReport(page);
    const asked = page.locator("[data-setting='date_order']");
    expect(await asked.textContent()).toMatch(/8 cells depend on it/);
    const dayFirst = asked.getByRole("button", { name: /^day first/ });
    expect(await dayFirst.textContent()).toMatch(/3\/4\/26 is 3 April 2026/);
    expect((await saved(page, "Cleaned sheet")).text).not.toMatch(/2026-/);
    await dayFirst.click();
    await waitForAnswers(page);
    expect(await dayFirst.getAttribute("aria-pressed")).toBe("true");
    expect(await page.locator(".log-fold").allTextContents()).not.toContainEqual(
      expect.stringMatching(/can be swapped/),
    );
    expect((await saved(page, "Cleaned sheet")).text).toMatch(/2026-04-03/);
    expect((await saved(page, "Settings")).text).toBe(
      "key,value,unit,note,sheet\r\ndate_order,day first,,answered\r\n",
    );
    await asked.getByRole("button", { name: /^month first/ }).click();
    await waitForAnswers(page);
    expect((await saved(page, "Cleaned sheet")).text).toMatch(/2026-03-04/);
    await asked.getByRole("button", { name: "Take it back" }).click();
    await waitForAnswers(page);
    expect((await saved(page, "Cleaned sheet")).text).not.toMatch(/2026-/);
    expectQuiet(opened);
  });

  test("what is no sheet is said so, and the page goes on", async () => {
    const opened = shared();
    const { page } = opened;
    await dropFiles(page, [["photo.png", "x"]]);
    expect(await page.getByRole("status").textContent()).toBe(
      "Not read: photo.png (another kind of document, not a sheet).",
    );
    await dropFiles(page, [["page.csv", "<!doctype html><html><body>hello</body></html>"]]);
    await page.getByRole("alert").waitFor();
    expect(await page.getByRole("alert").textContent()).toMatch(/page\.csv.*HTML/s);
    await page.getByRole("button", { name: "Take out page.csv" }).click();
    await page.getByText("Drop your sheets here").waitFor();
    expectQuiet(opened);
  });
});

describeInBrowser("the page that sheets are dropped on", ({ open }) => {
  test("the as-typed book dropped: log, answers, report and its links, files to save; no sideways scrolling, nothing asked of the network, accessible empty and full", async () => {
    const opened = await open(html, { acceptDownloads: true });
    const { page } = opened;
    await expectAccessible(page);
    await page.getByRole("button", { name: "Open the sample book" }).click();
    await page.locator(".sheet-list .use", { hasText: "cost sheet" }).waitFor();
    await page.getByRole("button", { name: "Take all out" }).click();
    await dropFiles(page, [
      ["2026-spring.csv", typedSheet("harvests/2026-spring.csv")],
      ["2026-summer.csv", typedSheet("harvests/2026-summer.csv")],
      ["costs.csv", typedSheet("costs.csv")],
      ["products.csv", typedSheet("products.csv")],
      ["settings.csv", typedSheet("settings.csv")],
    ]);
    await waitForReport(page);
    // the head stands over both sides, though the report's own style lays out a rail beside what it calls main
    for (const part of [".page-head", ".bench", ".page-foot"]) {
      expect((await page.locator(part).boundingBox())!.width, part).toBe(page.viewportSize()!.width);
    }
    const frame = page.frameLocator("iframe.report-frame");
    // a link inside the report leads to its place in it
    // the contents are a line that opens where the frame has no room for a rail
    await frame.locator("nav a[href$='#trays']").evaluate((link: HTMLAnchorElement) => link.click());
    await frame.locator("#trays:target").waitFor();
    const uses = await page.locator(".sheet-list .use").allTextContents();
    expect(uses.map((use) => use.replace(/,.*/, "")).sort()).toEqual(
      ["cost sheet", "harvest sheet", "harvest sheet", "product sheet", "settings sheet"].sort(),
    );
    expect(await page.locator(".log-fold summary").allTextContents()).toEqual(
      expect.arrayContaining([expect.stringMatching(/^\d+ flags/), expect.stringMatching(/^\d+ changes/)]),
    );
    expect(await page.locator(".answers-found .sentence").count()).toBeGreaterThan(3);
    expect(await frame.locator("#answers > li").count()).toBe(8);
    expect(await frame.locator("svg.chart").count()).toBeGreaterThan(3);
    for (const width of [390, 1280, 3840]) {
      await page.setViewportSize({ width, height: 900 });
      const sideways = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(sideways, `sideways scrolling at ${width} px`).toBeLessThanOrEqual(0);
    }
    const report = await saved(page, "Report");
    expect(report.name).toBe("2026-spring-report.html");
    expect(report.text).toMatch(/^<!DOCTYPE html>/);
    const markup = report.text.slice(0, report.text.indexOf("<script"));
    expect(/https?:\/\/(?!www\.w3\.org)/.exec(markup)?.[0]).toBeUndefined();
    const cleaned = await saved(page, "Cleaned sheet");
    expect(cleaned.text.trimEnd().split("\r\n")).toHaveLength(1 + 96);
    expect(cleaned.text).toMatch(/^tray_id,batch,/);
    expect((await saved(page, "Log")).text).toMatch(/^file,row,column,tray,raw,/);
    expect((await saved(page, "Settings")).text).toMatch(/book_title,Lantern Shed lion's mane/);
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    await expectAccessible(page);
    expectQuiet(opened);
    await page.context().close();
  });

  test("a hundred thousand rows: the page stays at hand while the worker works, and cancel ends it", async () => {
    const folder = mkdtempSync(join(tmpdir(), "gramwright-big-"));
    const opened = await open(html);
    const { page } = opened;
    try {
      writeBigSheet(join(folder, "big.csv"), 100_000);
      await page.setInputFiles("input[type=file]", join(folder, "big.csv"));
      await page.getByText(/rows$/).first().waitFor();
      const client = await page.context().newCDPSession(page);
      await client.send("Performance.enable");
      const busySeconds = async () =>
        (await client.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration")!.value;
      const before = await busySeconds();
      const frames = await page.evaluate(
        () =>
          new Promise<{ count: number; seconds: number }>((done) => {
            const start = performance.now();
            let count = 0;
            const tick = (now: number) => {
              count++;
              if (now - start > 2000) done({ count, seconds: (now - start) / 1000 });
              else requestAnimationFrame(tick);
            };
            requestAnimationFrame(tick);
          }),
      );
      // a page that did the work itself would do nothing else, however quick or slow the machine
      expect(frames.count).toBeGreaterThan(10);
      expect(((await busySeconds()) - before) / frames.seconds).toBeLessThan(0.7);
      await page.getByRole("button", { name: "Cancel" }).click();
      await page.getByText("Stopped before it was finished").waitFor();
      const shown = await page.locator("main").textContent();
      await page.waitForTimeout(500);
      expect(await page.locator("main").textContent()).toBe(shown);
      expect(await page.getByRole("button", { name: "Start again" }).count()).toBe(1);
      expectQuiet(opened);
    } finally {
      rmSync(folder, { recursive: true, force: true });
      await page.context().close();
    }
  });

  test("with the keyboard alone: from the first tab to an answered question", async () => {
    const opened = await open(html);
    const { page } = opened;
    // from now on choosers are caught: catching begins too late when it is first asked for at the key press
    page.on("filechooser", () => {});
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? "");
    const tabTo = async (name: RegExp, key = "Tab") => {
      for (let tabs = 0; tabs < 60; tabs++) {
        await page.keyboard.press(key);
        if (name.test(await focused())) return;
      }
      throw new Error(`tabbing never came to ${name}`);
    };
    await page.keyboard.press("Tab");
    expect(await focused()).toBe("To the sheets");
    await tabTo(/^Choose sheets$/);
    const chooser = page.waitForEvent("filechooser");
    await page.keyboard.press("Enter");
    await (await chooser).setFiles([{ name: "spring.csv", mimeType: "text/csv", buffer: Buffer.from(eitherDates) }]);
    await waitForReport(page);
    expect(await page.getByRole("status").textContent()).toBe("The report is ready.");
    await tabTo(/^day first/);
    await page.keyboard.press("Space");
    await waitForReport(page);
    // the answer keeps the focus while everything round it is written again
    expect(await focused()).toMatch(/^day first/);
    expect(await page.locator(".given").textContent()).toMatch(/^Answered: day first/);
    await tabTo(/^Fill the window$/);
    await page.keyboard.press("Enter");
    expect(await focused()).toBe("Back to the sheets");
    const height = await page.evaluate(() => document.querySelector("iframe")!.clientHeight / innerHeight);
    expect(height).toBeGreaterThan(0.8);
    await page.keyboard.press("Enter");
    await tabTo(/^Report$/, "Shift+Tab");
    expectQuiet(opened);
    await page.context().close();
  });

  test("a hostile sheet runs nothing, loads nothing and leaves the page as it is", async () => {
    const opened = await open(html, { acceptDownloads: true });
    const { page } = opened;
    const name = "<img src=x onerror=hit=1>.csv";
    await dropFiles(page, [[name, hostileSheet()]]);
    await page.locator("iframe.report-frame, .work-status.trouble").first().waitFor();
    expect(await page.locator(".work-status.trouble").allTextContents()).toEqual([]);
    await waitForReport(page);
    const state = await page.evaluate(() => ({
      hit: "hit" in globalThis,
      polluted: Object.keys(Object.prototype).length + Object.keys(Function.prototype).length,
      scripts: document.scripts.length,
      pictures: document.images.length,
      addresses: [...document.links]
        .map(({ protocol }) => protocol)
        .filter((protocol) => !/^(file|blob):$/.test(protocol)),
      wide: document.documentElement.scrollWidth - innerWidth,
    }));
    expect(state).toEqual({ hit: false, polluted: 0, scripts: 1, pictures: 0, addresses: [], wide: 0 });
    expect(await page.locator(".sheet-name").textContent()).toBe(name);
    const frame = page.frames().find((one) => one !== page.mainFrame())!;
    expect(await frame.locator("iframe, object, embed, form").count()).toBe(0);
    // the report's own: its book, its program packed, what starts it, and the program unpacked
    await frame.locator("html.live").waitFor();
    expect(await frame.locator("script").count()).toBe(4);
    expect(await frame.evaluate(() => "hit" in globalThis)).toBe(false);
    expect(await frame.locator("a:not([href^='about:srcdoc#'], [download])").count()).toBe(0);
    for (const what of ["Cleaned sheet", "Log"]) {
      const { cells, risky } = riskyCells((await saved(page, what)).text);
      expect(cells).toBeGreaterThan(1000);
      expect(risky.slice(0, 5)).toEqual([]);
    }
    expectQuiet(opened);
    await page.context().close();
  });
});

test("the page allows only its own scripts by their hashes, no eval, no network", () => {
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)![1]!;
  const rules = new Map(policy.split("; ").map((rule) => [rule.split(" ")[0]!, rule.split(" ").slice(1)]));
  expect(rules.get("default-src")).toEqual(["'none'"]);
  expect(rules.get("connect-src")).toEqual(["'none'"]);
  expect(rules.get("worker-src")).toEqual(["blob:"]);
  // its own, and the two of the live report shown in its frame
  const script = /<script>([\s\S]*)<\/script>/.exec(html)![1]!;
  const hash = `'sha256-${createHash("sha256").update(script).digest("base64")}'`;
  expect(rules.get("script-src")).toEqual([
    hash,
    ...Array(2).fill(expect.stringMatching(/^'sha256-[A-Za-z0-9+/]+=*'$/)),
  ]);
  expect(rules.get("style-src")!.every((rule) => rule.startsWith("'sha256-"))).toBe(true);
  expect(policy).not.toMatch(/unsafe|https?:|\*/);
  expect(html.slice(0, html.indexOf("<script>"))).not.toMatch(/ on[a-z]+=|<link|src="/);
});

test("the command writes the page, renews its own copy and nothing else", () => {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-page-"));
  try {
    const path = join(folder, "drop.html");
    writePage(path);
    writePage(path);
    expect(readFileSync(path, "utf8")).toBe(html);
    writeFileSync(join(folder, "mine.html"), "<p>mine</p>");
    expect(() => writePage(join(folder, "mine.html"))).toThrow(PlainFailure);
    writePage(join(folder, "new", "where.html"));
    expect(readFileSync(join(folder, "new", "where.html"), "utf8")).toBe(html);
    expect(readFileSync(join(folder, "mine.html"), "utf8")).toBe("<p>mine</p>");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
