import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, test } from "vitest";
import { findBrowser } from "./find-browser.ts";

/** A page opened from a file, and what it did that a self-contained page must not do. */
export interface OpenedPage {
  page: Page;
  /** addresses asked for beyond the file itself and data held in it */
  requests: string[];
  /** console errors and uncaught errors */
  complaints: string[];
}

/** Opens pages in the worker's browser; those still open after the tests of a group are closed. */
export interface PageOpener {
  /**
   * Writes the HTML to a file of its own and opens that file in a fresh context.
   * @param before runs in the page before its own scripts
   */
  open(html: string, options?: BrowserContextOptions, before?: () => void): Promise<OpenedPage>;
}

// What the driver itself turns off (a later list takes the place of one before), and the pages behind the address field: a
// new window loads two of them, which takes longer than most of our pages.
const withoutFeatures = [
  ...["AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades", "LensOverlay"],
  ...[
    "MediaRouter",
    "NetworkTimeServiceQuerying",
    "OptimizationHints",
    "PaintHolding",
    "ThirdPartyStoragePartitioning",
  ],
  ...["WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup"],
];

/** The browser of this worker, for all of its files: the driver ends it with the worker. Each test has a context of its own. */
let started: Promise<Browser> | undefined;

const browserOf = (executablePath: string): Promise<Browser> => {
  started ??= chromium.launch({
    executablePath,
    args: [
      ...["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
      `--disable-features=${withoutFeatures.join(",")}`,
    ],
  });
  return started;
};

/**
 * Tests that need a real browser. Where none is found they fail on a build server (CI=true) and are left out elsewhere,
 * saying how to have them run.
 */
export function describeInBrowser(name: string, tests: (opener: PageOpener) => void): void {
  const executablePath = findBrowser();
  if (executablePath === undefined) {
    const howTo = "no browser found: install chromium, or set CHROMIUM_PATH";
    if (process.env.CI === "true") {
      test(`${name} (${howTo})`, () => {
        throw new Error(`${name}: ${howTo}`);
      });
    } else {
      describe.skip(`${name} (${howTo})`, () => tests({ open: () => Promise.reject(new Error(howTo)) }));
    }
    return;
  }
  describe(name, () => {
    let browser: Browser;
    let folder: string;
    let opened = 0;
    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), "gramwright-page-"));
      browser = await browserOf(executablePath);
    });
    afterAll(async () => {
      for (const context of browser.contexts()) await context.close();
      rmSync(folder, { recursive: true, force: true });
    });
    tests({
      async open(html, options, before) {
        opened += 1;
        const file = join(folder, `page-${opened}.html`);
        writeFileSync(file, html);
        const address = pathToFileURL(file).href;
        const context = await browser.newContext(options);
        const page = await context.newPage();
        // what is waited for is there soon, or the machine is busy: a test's own limit ends a wait, not a shorter one
        page.setDefaultTimeout(150_000);
        const requests: string[] = [];
        const complaints: string[] = [];
        page.on("request", (request) => {
          const url = request.url();
          if (url !== address && !url.startsWith("data:") && !url.startsWith("blob:")) requests.push(url);
        });
        page.on("console", (message) => {
          if (message.type() === "error") complaints.push(message.text());
        });
        page.on("pageerror", (error) => complaints.push(String(error)));
        if (before !== undefined) await page.addInitScript(before);
        await page.goto(address);
        return { page, requests, complaints };
      },
    });
  });
}
