import { expect, test } from "vitest";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { accessFaults } from "../accessible.ts";
import { describeInBrowser } from "../browser.ts";
import { dropFiles, expectQuiet, pageHtml, saved } from "./drop-page.ts";

/** Four cooks of six trays picked, one still growing; the sheet ends so many days before today. */
function sheet(endsBefore: number): string {
  const today = Math.floor((Date.now() - new Date().getTimezoneOffset() * 60_000) / 86_400_000);
  const rows = Array.from({ length: 30 }, (_, index) => {
    const [cook, tray] = [Math.floor(index / 6), index % 6];
    const start = today - endsBefore - 20 - 14 * (4 - cook);
    const picked = start + 36 + ((tray + cook) % 5);
    const colonised = start + 13 + (tray % 3);
    const isDone = cook < 4 && picked <= today - endsBefore;
    return [
      `C${cook + 1}-${tray + 1}`,
      `C${cook + 1}`,
      6,
      dateOfDay(start),
      dateOfDay(colonised),
      isDone ? dateOfDay(picked) : "",
      isDone ? "good" : "growing",
      isDone ? 30 + tray : "",
    ].join(",");
  });
  // something was seen on the last day
  const seen = `LAST,C6,6,${dateOfDay(today - endsBefore)},,,growing,`;
  return `tray_id,batch,inoculum_ml,inoculated_on,colonised_on,harvested_on,outcome,dry_g\n${[...rows, seen].join("\n")}\n`;
}

const phone = {
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  offline: true,
  acceptDownloads: true,
};

describeInBrowser("what is due, on the page", ({ open }) => {
  test("on a phone without a network: the list, by touch; the calendar and the week are saved; nothing scrolls sideways", async () => {
    const opened = await open(pageHtml(), phone);
    const { page } = opened;
    await dropFiles(page, [["mine.csv", sheet(0)]]);
    const due = page.locator("section", { has: page.locator("#due-title") });
    await due.locator(".due-tasks li").first().waitFor();
    expect(await due.locator(".due-head").textContent()).toMatch(/\d+ trays are growing\.$/);
    expect(await due.locator(".due-tasks li").allTextContents()).toContainEqual(
      expect.stringMatching(/harvest.*cook C\d.*, 8 of 10/),
    );
    await page.getByRole("link", { name: "Due", exact: true }).tap();
    expect(await page.evaluate(() => location.hash)).toBe("#due-title");
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(sideways).toBeLessThanOrEqual(0);
    const calendar = await saved(page, "Calendar");
    expect(calendar.name).toMatch(/^due-\d{4}-\d\d-\d\d\.ics$/);
    expect(calendar.text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect((await saved(page, "Week to print")).text).toContain('scope="rowgroup"');
    // WCAG 2.2, 2.5.8: targets of 24 px
    for (const target of await due.locator("a, button").all()) {
      const box = (await target.boundingBox())!;
      expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(24);
    }
    expectQuiet(opened);
    await page.context().close();
  });

  test("sheets that end some days ago: the list of their last day is one key away; axe finds nothing, light or dark", async () => {
    const opened = await open(pageHtml(), { viewport: { width: 390, height: 844 } });
    const { page } = opened;
    await dropFiles(page, [["mine.csv", sheet(30)]]);
    const due = page.locator("section", { has: page.locator("#due-title") });
    await due.locator(".due-head").waitFor();
    expect(await due.textContent()).toMatch(/The sheets end on .*: what was done since then is not known here/);
    const last = due.getByRole("button", { name: /^The sheets' last day/ });
    await due.getByRole("button", { name: /^Today/ }).focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    expect(await last.getAttribute("aria-pressed")).toBe("true");
    expect(await due.textContent()).not.toContain("what was done since then");
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await accessFaults(page, ["iframe"]), colorScheme).toEqual([]);
    }
    expectQuiet(opened);
    await page.context().close();
  });
});
