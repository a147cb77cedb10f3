import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { dropFiles, expectQuiet, pageHtml, saved } from "./drop-page.ts";

const sheet =
  "tray,dose ml,fresh g,dry g,outcome\nT1,5,205,21,good\nT2,5,abc,20,good\nT3,10,231,23,meh\nT4,10,240,24,good\n";

describeInBrowser("single cells on the page", ({ open }) => {
  test("what a cell says is typed, what became of a tray clicked; both are saved as cells.csv", async () => {
    const opened = await open(pageHtml(), { acceptDownloads: true });
    const { page } = opened;
    page.setDefaultTimeout(60_000);
    await dropFiles(page, [["spring.csv", sheet]]);
    // questions stand as soon as the sheet is cleaned; the report need not be waited for
    const ending = page.locator(".asked", { hasText: "What became of the tray? (spring.csv, row 4, tray T3)" });
    await ending.getByRole("button", { name: "contaminated" }).click();
    const log = (await page.locator(".log-fold").allTextContents()).join(" ");
    expect(log).toMatch(/Answer it under/);
    expect(log).not.toMatch(/settings\.csv/);
    const weight = page.locator(".asked", { hasText: "What should “fresh g” say? (spring.csv, row 3, tray T2)" });
    await weight.getByRole("textbox").fill("210 g");
    await weight.getByRole("button", { name: "Use it" }).click();
    await expect
      .poll(async () => (await saved(page, "Answers")).text, { timeout: 60_000 })
      .toBe(
        "file,row,tray,column,value,note\r\nspring.csv,4,T3,outcome,contaminated,answered\r\nspring.csv,3,T2,fresh g,210 g,answered\r\n",
      );
    const cleaned = (await saved(page, "Cleaned sheet")).text;
    expect(cleaned).toMatch(/T2,.*210/);
    expect(cleaned).toMatch(/T3,.*contaminated/);
    await weight.getByRole("button", { name: "Take it back" }).click();
    await expect
      .poll(async () => (await saved(page, "Cleaned sheet")).text, { timeout: 60_000 })
      .not.toMatch(/T2,.*210/);
    expectQuiet(opened);
    await page.context().close();
  });
});
