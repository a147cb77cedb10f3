import { describe, expect, test } from "vitest";
import { accessFaults } from "../accessible.ts";
import { describeInBrowser } from "../browser.ts";
import { hostileBook } from "../report/hostile.ts";
import { book, cellOf, downloaded, grid, ready, report, sharedReport, type } from "./live-page.ts";
import { liveReport } from "./live-report.ts";
import { settled } from "./settled.ts";

describeInBrowser("a live report", ({ open }) => {
  test("a price changed: costs and prices at once, answers after them; undo; save; a reload keeps it", async () => {
    const { page, requests, complaints } = await open(await report);
    await ready(page);
    const price = await cellOf(page, "costs", "cracked sorghum", "Price of a pack");
    await type(page, price, "155");
    await page.locator(".live-bar .moved").first().waitFor();
    const said = page.locator(".live-bar .change-list li");
    expect(await said.allTextContents()).toEqual(["cracked sorghum, price of a pack: was 31 → 155"]);
    await settled(page);
    const gram = page.locator('[data-front="what-does-a-good-gram-cost"]');
    expect(await gram.locator(".was").textContent()).toContain("was €");
    const ask = page.locator('.question[data-question="what-price-to-ask"] td .was');
    expect(await ask.count()).toBeGreaterThan(0);
    // each changed answer can be jumped to, and is named once
    const jump = page.locator('.live-bar a[href="#q-what-does-a-good-gram-cost"]');
    expect(await jump.count()).toBe(1);
    await jump.click();
    expect(await page.evaluate(() => location.hash)).toBe("#q-what-does-a-good-gram-cost");
    // what does not depend on costs is as it was
    expect(await page.locator('.question[data-question="what-changed-the-yield"] .was-sentence').count()).toBe(0);

    const { name, bytes } = await downloaded(page, "Save costs.csv");
    expect(name).toBe("costs.csv");
    const lines = bytes.toString("utf8").split("\r\n");
    expect(lines[0]).toMatch(/^item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per,/);
    expect(lines[1]).toMatch(/^cracked sorghum,ingredient,155,25000,g,380,g,tray,/);

    await page.reload();
    await ready(page);
    expect(await (await cellOf(page, "costs", "cracked sorghum", "Price of a pack")).textContent()).toMatch(/31\s*155/);
    await page.getByRole("button", { name: "Back to the saved book" }).click();
    expect(await (await cellOf(page, "costs", "cracked sorghum", "Price of a pack")).textContent()).toBe("31");
    expect(await page.locator(".live-bar .moved").count()).toBe(0);
    await page.keyboard.press("Control+z");
    expect(await (await cellOf(page, "costs", "cracked sorghum", "Price of a pack")).textContent()).toMatch(/31\s*155/);
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  describe("one report, taken back to its saved book after each", () => {
    const shared = sharedReport(open, { permissions: ["clipboard-read", "clipboard-write"] });

    test("by keyboard alone: move, type, take back, select, undo and redo, leave", async () => {
      const { page } = shared();
      await grid(page, "products").locator('[tabindex="0"]').focus();
      const at = () =>
        page.evaluate(() => {
          const cell = document.activeElement as HTMLElement;
          return `${cell.closest<HTMLElement>("[data-row]")?.dataset.row ?? "head"}/${cell.dataset.column ?? cell.tagName}`;
        });
      expect(await at()).toBe("0/0");
      for (const [key, place] of [
        ["ArrowRight", "0/1"],
        ["ArrowDown", "1/1"],
        ["End", "1/18"],
        ["Home", "1/0"],
        ["Tab", "1/1"],
        ["Shift+Tab", "1/0"],
        ["PageDown", "3/0"],
        ["Control+Home", "0/0"],
        ["ArrowUp", "head/0"],
        ["ArrowDown", "0/0"],
      ] as const) {
        await page.keyboard.press(key);
        if (key === "End") expect(await at()).toMatch(/^1\/1\d$/);
        else expect(await at()).toBe(place);
      }
      const packaging = await cellOf(page, "products", "dried slices 50 g", "Packaging");
      const was = (await packaging.textContent())!;
      for (let at = Number(await packaging.getAttribute("data-column")); at > 0; at--)
        await page.keyboard.press("ArrowRight");
      await page.keyboard.press("F2");
      await page.keyboard.press("Escape");
      expect(await packaging.textContent()).toBe(was);
      await page.keyboard.type("0.95");
      await page.keyboard.press("Enter");
      expect(await packaging.textContent()).toMatch(/0\.95$/);
      expect(await page.locator(".live-bar [role=status]").textContent()).toContain(`now 0.95, was ${was}`);
      await page.keyboard.press("Control+z");
      expect(await packaging.textContent()).toBe(was);
      await page.keyboard.press("Control+y");
      expect(await packaging.textContent()).toMatch(/0\.95$/);
      await page.keyboard.press("Shift+ArrowDown");
      await page.keyboard.press("Shift+ArrowRight");
      expect(await grid(page, "products").locator(".selected").count()).toBe(4);
      await page.keyboard.press("Escape");
      expect(await page.evaluate(() => document.activeElement?.closest(".grid-box") === null)).toBe(true);
    });

    test("a bad cell keeps what was typed and says what is expected", async () => {
      const { page } = shared();
      const bag = await cellOf(page, "costs", "filter bag", "Price of a pack");
      await type(page, bag, "a few coins");
      expect(await bag.textContent()).toContain("a few coins");
      expect(await bag.getAttribute("aria-invalid")).toBe("true");
      await page.locator('[data-grid="costs"] .bad-cells button').click();
      expect(await page.locator('[data-grid="costs"] .bad-finding').textContent()).toMatch(/expected a /i);
    });

    test("a block pasted from a spreadsheet, copied out with formulas guarded", async () => {
      const { page } = shared();
      const first = await cellOf(page, "products", "dried slices 50 g", "Packaging");
      await first.click();
      const clipboard = (kind: "copy" | "paste", text = "") =>
        page.evaluate(
          ([kind, text]) => {
            const data = new DataTransfer();
            if (text) data.setData("text/plain", text);
            document.activeElement?.dispatchEvent(
              new ClipboardEvent(kind!, { clipboardData: data, bubbles: true, cancelable: true }),
            );
            return data.getData("text/plain");
          },
          [kind, text],
        );
      await clipboard("paste", "0.75\t6\r\n1.25\t7\r\n");
      expect(await (await cellOf(page, "products", "dried slices 50 g", "Packaging")).textContent()).toMatch(/0\.75$/);
      expect(await (await cellOf(page, "products", "dried slices 250 g", "Work")).textContent()).toMatch(/7$/);
      expect(await clipboard("copy")).toBe("0.75\t6\n1.25\t7");
      const name = await cellOf(page, "products", "powder 30 g", "Channel");
      await type(page, name, "=1+1");
      await name.click();
      expect(await clipboard("copy")).toBe("'=1+1");
      const { bytes } = await downloaded(page, "Save products.csv");
      expect(bytes.toString("utf8")).toContain(",'=1+1,");
    });

    test("a tray set aside: the headline says so, answers follow, its row stays in the saved sheet", async () => {
      const { page } = shared();
      const tray = (await book).trays[0]!.trayId;
      const reason = grid(page, "trays").locator('[data-row="0"] [data-column="1"]');
      await type(page, reason, "dropped on the floor");
      expect(await page.locator(".front .flagged").first().textContent()).toContain(`${tray} (dropped on the floor)`);
      await page.locator(".q > .was-sentence").first().waitFor();
      const { bytes } = await downloaded(page, page.locator(".live-bar button.strong"));
      expect(bytes.toString("utf8")).toContain("set aside: dropped on the floor");
    });

    test("sorting, filtering and hiding columns change what is looked at, not the sheet", async () => {
      const { page } = shared();
      const box = grid(page, "trays");
      const heads = await box.locator(".head-label").allInnerTexts();
      const dry = heads.findIndex((text) => text.startsWith("Dry weight"));
      const column = async () =>
        (await box.locator(`.grid-row [data-column="${dry}"]`).allInnerTexts())
          .filter((text) => text !== "")
          .map(Number);
      const before = await column();
      await box.locator(`.grid-head [data-column="${dry}"]`).click();
      const sorted = await column();
      expect(sorted).not.toEqual(before);
      expect(sorted).toEqual([...sorted].sort((a, b) => a - b));
      const block = page.locator('[data-grid="trays"]');
      await block.getByRole("button", { name: "Filter" }).click();
      await block.getByLabel("Show rows where Inoculum holds").fill("9 to 9");
      expect(await block.locator(".grid-count").textContent()).toMatch(/^6 of 24 rows/);
      await block.getByText("Columns").click();
      await block.getByRole("checkbox", { name: "Dry weight" }).uncheck();
      expect((await box.locator(".head-label").allInnerTexts()).some((text) => text.startsWith("Dry weight"))).toBe(
        false,
      );
    });

    test("printed: the tables of the report, with what was changed in them, and nothing to click", async () => {
      const { page } = shared();
      await type(page, await cellOf(page, "costs", "cracked sorghum", "Price of a pack"), "155");
      await page.emulateMedia({ media: "print" });
      await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
      const row = page
        .locator("table", { has: page.locator("#costs-lines") })
        .locator("tbody tr")
        .first();
      expect(await row.textContent()).toContain("€155.00");
      expect(await row.isVisible()).toBe(true);
      for (const hidden of [".grid-box", ".live-bar", ".q .figure-tools"])
        expect(await page.locator(hidden).first().isVisible()).toBe(false);
    });
  });

  test("accessible with changes in it, in light at 1280 px and in dark at 390 px, and nothing runs out sideways", async () => {
    const { page } = await open(await report, { colorScheme: "light", viewport: { width: 1280, height: 900 } });
    await ready(page);
    await type(page, await cellOf(page, "costs", "cracked sorghum", "Price of a pack"), "62");
    await type(page, await cellOf(page, "costs", "filter bag", "Price of a pack"), "dear");
    const costs = page.locator('[data-grid="costs"]');
    await costs.getByRole("button", { name: "Delete row" }).click();
    await costs.getByRole("button", { name: "Add row" }).click();
    expect(await costs.locator(".grid-count").textContent()).toMatch(/1 added, 1 deleted/);
    await page.locator(".question td .was").first().waitFor({ state: "attached" });
    const look = async (colorScheme: "light" | "dark", width: number) => {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      await page
        .locator(".q figure .wide [data-marks], .q figure .narrow [data-marks]")
        .filter({ visible: true })
        .first()
        .focus();
    };
    await look("dark", 390);
    await look("light", 1280);
    // sections alike are looked at once; the rest of the report has a test of its own
    await page.evaluate(() => {
      const sections = [...document.querySelectorAll(".question")];
      const kept = sections.find((section) => section.querySelector("td .was") !== null);
      for (const section of sections) if (section !== kept) section.remove();
      for (const fold of kept?.querySelectorAll("details") ?? []) fold.open = true;
      for (const other of document.querySelectorAll("#sheets, #columns, #left-out, .as-written")) other.remove();
    });
    const further = ["tbody tr:nth-child(n+4)", ".grid-row:nth-child(n+5)"];
    expect(await accessFaults(page, further)).toEqual([]);
    await page.emulateMedia({ colorScheme: "dark" });
    await page.setViewportSize({ width: 390, height: 900 });
    expect(await accessFaults(page, further)).toEqual([]);
    await page.context().close();
  });

  test("refused storage is said, and everything else works", async () => {
    const { page, complaints } = await open(await report, {}, () => {
      Object.defineProperty(window, "localStorage", {
        get: () => {
          throw new DOMException("The operation is insecure.", "SecurityError");
        },
      });
    });
    await ready(page);
    const price = await cellOf(page, "costs", "cracked sorghum", "Price of a pack");
    await type(page, price, "40");
    expect(await price.textContent()).toMatch(/31\s*40/);
    expect(await page.locator(".live-trouble").textContent()).toContain("keeps nothing");
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test("nothing in a hostile book runs, live or not, and the policy lets nothing else run", async () => {
    const html = await liveReport(hostileBook());
    const { page, requests, complaints } = await open(html);
    await ready(page);
    expect(complaints).toEqual([]);
    expect(await page.evaluate(() => "hit" in globalThis)).toBe(false);
    const name = grid(page, "trays").locator('[data-row="0"] [data-column="1"]');
    await type(page, name, "<img src=x onerror=globalThis.hit=1><script>hit=1</script>");
    expect(await page.locator(".front .flagged").first().textContent()).toContain("<img src=x");
    // a script that a page's own code tries to add does not run
    await page.evaluate(() => {
      const script = document.createElement("script");
      try {
        script.textContent = "globalThis.hit = 1";
        document.head.append(script);
      } catch (error) {
        if (!(error instanceof TypeError)) throw error;
      }
    });
    expect(await page.evaluate(() => "hit" in globalThis)).toBe(false);
    expect(await page.evaluate(() => document.querySelectorAll(".live-place a, .live-place img").length)).toBe(0);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test("without script the page reads as the static report", async () => {
    const { page } = await open(await report, { javaScriptEnabled: false });
    await page.locator("#costs-sheet summary").click();
    expect(await page.locator("#costs-lines").isVisible()).toBe(true);
    await page.locator("#trays summary").click();
    expect(await page.locator("#trays-table").isVisible()).toBe(true);
    expect(await page.locator(".q .figure-tools").first().isVisible()).toBe(false);
    await page.context().close();
  });
});
