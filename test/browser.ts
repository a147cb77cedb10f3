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

/** Opens pages in one browser that is started before the tests of a group and closed after them. */
export interface PageOpener {
  /** writes the HTML to a file of its own and opens that file in a fresh context */
  open(html: string, options?: BrowserContextOptions): Promise<OpenedPage>;
}

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
      browser = await chromium.launch({
        executablePath,
        args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
      });
    });
    afterAll(async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    });
    tests({
      async open(html, options) {
        opened += 1;
        const file = join(folder, `page-${opened}.html`);
        writeFileSync(file, html);
        const address = pathToFileURL(file).href;
        const context = await browser.newContext(options);
        const page = await context.newPage();
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
        await page.goto(address);
        return { page, requests, complaints };
      },
    });
  });
}
