import type { Frame, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { report } from "../live/live-page.ts";
import { dropFiles, pageHtml, smallBook, waitForReport } from "../page/drop-page.ts";

/** What is out of place in the tables and sheets of a page; "" for each that is right. */
const misplaced = (page: Page | Frame): Promise<string[]> =>
  page.evaluate(() => {
    const faults: string[] = [];
    const isRightToLeft = getComputedStyle(document.documentElement).direction === "rtl";
    const rect = (element: Element) => element.getBoundingClientRect();
    const textOf = (cell: Element) => {
      const range = document.createRange();
      range.selectNodeContents(cell);
      return range.getBoundingClientRect();
    };
    const near = (a: number, b: number, most = 1.5) => Math.abs(a - b) <= most;
    const check = (isRight: boolean, what: string, at: Element) => {
      if (!isRight) faults.push(`${what}: ${at.textContent?.slice(0, 40)}`);
    };
    for (const fold of document.querySelectorAll("details")) fold.open = true;
    for (const box of document.querySelectorAll<HTMLElement>(".sheet-box, .grid-box")) {
      if (box.getClientRects().length === 0) continue;
      const heads = [...box.querySelectorAll("thead th, .grid-head > div")];
      if (heads.length === 0) continue;
      const rows = [...box.querySelectorAll("tbody tr, .grid-row")].slice(0, 12);
      for (const row of rows) {
        const cells = [...row.children];
        if (cells.length !== heads.length) continue;
        for (const [index, cell] of cells.entries()) {
          const [head, own] = [rect(heads[index]!), rect(cell)];
          check(near(head.left, own.left) && near(head.right, own.right), "not under its head", cell);
          if (!cell.classList.contains("number") || cell.textContent === "") continue;
          const shown = textOf(cell);
          const room = Number.parseFloat(getComputedStyle(cell).paddingRight) + 2;
          check(near(shown.right, own.right, room), "number not at the right", cell);
          const text = cell.firstChild;
          if (text instanceof Text && /^−\d/.test(text.data)) {
            const sign = document.createRange();
            sign.setStart(text, 0);
            sign.setEnd(text, 1);
            const digit = document.createRange();
            digit.setStart(text, 1);
            digit.setEnd(text, 2);
            const isBefore = sign.getBoundingClientRect().left < digit.getBoundingClientRect().left;
            check(isBefore, "sign behind its number", cell);
          }
        }
      }
      // heads and first column stay in sight
      const far = isRightToLeft ? -100_000 : 100_000;
      box.scrollTo(far, 100_000);
      const first = heads[0]!;
      const inner = { left: rect(box).left + box.clientLeft, top: rect(box).top + box.clientTop };
      const caption = box.querySelector("caption")?.getBoundingClientRect().height ?? 0;
      if (box.scrollTop > caption + 1) check(near(rect(first).top, inner.top, 2), "head out of sight", first);
      const edge = isRightToLeft ? inner.left + box.clientWidth : inner.left;
      check(near(isRightToLeft ? rect(first).right : rect(first).left, edge, 2), "first column out of sight", first);
      box.scrollTo(0, 0);
    }
    const sideways = document.documentElement.scrollWidth - innerWidth;
    if (sideways > 0) faults.push(`sideways by ${sideways} px`);
    const outside = [...document.querySelectorAll("main *, .live-bar *")].filter((element) => {
      const { left, right, width } = rect(element);
      if (width < 2 || (left >= -1 && right <= innerWidth + 1)) return false;
      return element.closest(".sheet-box, .grid-box, .live-buttons, .unseen, .heard") === null;
    });
    for (const element of outside.slice(0, 5)) faults.push(`outside: ${element.tagName}.${element.className}`);
    return faults;
  });

const turn = (page: Page | Frame, dir: string) =>
  page.evaluate((to) => {
    document.documentElement.dir = to;
  }, dir);

describeInBrowser("from right to left", ({ open }) => {
  let page: Page;
  beforeAll(async () => {
    ({ page } = await open(await report, { viewport: { width: 1280, height: 900 } }));
    await page.locator("html.live").waitFor();
  });
  afterAll(() => page?.context().close());

  /** Sheets and charts follow a new width a moment later. */
  const expectInPlace = (of: Page | Frame) => expect.poll(() => misplaced(of), { timeout: 60_000 }).toEqual([]);

  test.each([
    ["ltr", 1280],
    ["rtl", 1280],
    ["rtl", 700],
    ["rtl", 390],
  ] as const)(
    "a live report, %s at %d px: numbers, heads and first columns in place, nothing runs out",
    async (dir, width) => {
      await page.setViewportSize({ width, height: 900 });
      await turn(page, dir);
      await expectInPlace(page);
    },
  );

  test("arrow keys go where they point, and the cell they reach is scrolled into sight beside the first column", async () => {
    await page.setViewportSize({ width: 390, height: 900 });
    await turn(page, "rtl");
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    await page.locator("[data-grid='trays'] [tabindex='0']").focus();
    const left = () => page.evaluate(() => document.activeElement!.getBoundingClientRect().left);
    for (const key of ["End", "Home", "ArrowLeft", "ArrowLeft", "ArrowLeft", "ArrowLeft", "ArrowRight"]) {
      await page.keyboard.press(key);
      const sight = await page.evaluate(() => {
        const cell = document.activeElement!.getBoundingClientRect();
        const box = document.activeElement!.closest(".grid-box")!;
        const first = box.querySelector(".grid-head > :first-child")!.getBoundingClientRect();
        const isFirst = document.activeElement!.matches(":first-child");
        return cell.left >= box.getBoundingClientRect().left - 1 && (isFirst || cell.right <= first.left + 1);
      });
      expect(sight, key).toBe(true);
    }
    await page.keyboard.press("Home");
    const start = await left();
    await page.keyboard.press("ArrowLeft");
    expect(await left()).toBeLessThan(start);
    await page.keyboard.press("ArrowRight");
    expect(await left()).toBe(start);
  });

  test.each([1280, 390])("a report without scripts, at %d px", async (width) => {
    await page.setViewportSize({ width, height: 900 });
    await page.evaluate(() => document.documentElement.classList.remove("live"));
    await turn(page, "rtl");
    await expectInPlace(page);
  });

  test("the drop page and the report in it, at 1280 and at 390 px", async () => {
    const dropped = (await open(pageHtml(), { viewport: { width: 1280, height: 900 } })).page;
    const widths = [1280, 390];
    const atEach = async (look: () => Promise<unknown>) => {
      for (const width of widths) {
        await dropped.setViewportSize({ width, height: 900 });
        await look();
      }
    };
    await turn(dropped, "rtl");
    await atEach(() => expectInPlace(dropped));
    await dropFiles(dropped, [...smallBook(), ["note.md", "x"]]);
    await waitForReport(dropped);
    const frame = dropped.frames().find((one) => one !== dropped.mainFrame())!;
    await frame.locator("html.live").waitFor();
    await turn(frame, "rtl");
    await atEach(async () => {
      await expectInPlace(dropped);
      await expectInPlace(frame);
    });
    await dropped.context().close();
  });
});
