import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { report } from "../live/live-page.ts";
import { firefoxPath, hasWebKit, openFirefox, openWebKit, type PageElsewhere } from "../other-browsers.ts";
import { pageHtml, smallBook } from "../page/drop-page.ts";

const onServer = process.env.CI === "true";

const browsers = [
  { name: "Firefox", has: firefoxPath !== undefined, open: openFirefox, needs: "install firefox-esr" },
  { name: "WebKit", has: hasWebKit, open: openWebKit, needs: "install webkit2gtk-driver and xvfb" },
];

/** Waits until a script gives something true. */
async function until(page: PageElsewhere, script: string, seconds = 150): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!(await page.evaluate<boolean>(`Boolean(${script})`))) {
    if (Date.now() > end) throw new Error(`until: not within ${seconds} s: ${script}`);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

describe.each(browsers)("$name", ({ name, has, open, needs }) => {
  if (!has) {
    if (onServer) {
      test(`is there (${needs})`, () => {
        throw new Error(`${name}: ${needs}`);
      });
    } else test.skip(`${name} is not there: ${needs}`, () => {});
    return;
  }
  let page: PageElsewhere;
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "gramwright-elsewhere-"));
    page = await open();
  });
  afterAll(async () => {
    await page?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test("the live report: front, charts, a price changed moves the bar and the answers", async () => {
    const file = join(folder, "report.html");
    writeFileSync(file, await report);
    await page.open(pathToFileURL(file).href);
    await until(page, `document.documentElement.classList.contains("live")`);
    expect(await page.evaluate<number>(`document.querySelectorAll("#answers > li").length`)).toBeGreaterThan(4);
    expect(await page.evaluate<number>(`document.querySelectorAll("svg.chart path").length`)).toBeGreaterThan(50);
    // a chart's colours are names of the page: they must come to a colour
    const fill = `getComputedStyle(document.querySelector("svg.chart path.pick")).fill`;
    expect(await page.evaluate<string>(fill)).toMatch(/^rgb/);
    expect(await page.evaluate<number>("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
    await page.evaluate(`(() => {
      const input = document.querySelector("input[data-price]");
      input.value = "3";
      input.dispatchEvent(new Event("change", { bubbles: true }));
      return true;
    })()`);
    await until(page, `(document.querySelector(".change-list")?.textContent ?? "").includes("→")`);
    await until(
      page,
      `document.querySelector("[data-front='what-price-to-ask'] .was, .question[data-question='what-price-to-ask'] .was-sentence")`,
    );
    expect(page.complaints ?? []).toEqual([]);
  });

  test("the drop page: sheets chosen, the report written in it", async () => {
    const file = join(folder, "page.html");
    writeFileSync(file, pageHtml());
    await page.open(pathToFileURL(file).href);
    await until(page, `document.querySelector("input.chooser")`);
    await page.evaluate(`(() => {
      const data = new DataTransfer();
      for (const [name, text] of ${JSON.stringify(smallBook())}) data.items.add(new File([text], name));
      const input = document.querySelector("input.chooser");
      input.files = data.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
      return true;
    })()`);
    await until(page, `document.querySelector("iframe.report-frame")`);
    expect(await page.evaluate<number>(`document.querySelectorAll(".answers-found li").length`)).toBeGreaterThan(2);
    expect(page.complaints ?? []).toEqual([]);
  });
});
