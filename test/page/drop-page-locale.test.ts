import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import {
  dropFiles,
  expectQuiet,
  pageHtml,
  saved,
  sharedPage,
  smallBook,
  waitForAnswers,
  waitForReport,
} from "./drop-page.ts";

const withComma = /\d,\d+\s(?:mL|g|days|%|€)/;
const withPoint = /\d\.\d+\s(?:mL|g|days)/;

describeInBrowser("numbers on the drop page in German", ({ open }) => {
  const shared = sharedPage(open, { locale: "de-DE" });

  test("a browser in German: answers, report, cells and counts with its comma; sheets that are saved with plain numbers", async () => {
    const opened = shared();
    const { page } = opened;
    await dropFiles(page, smallBook());
    await waitForReport(page);
    const frame = page.frames().find((one) => one !== page.mainFrame())!;
    await frame.locator("html.live").waitFor();
    const answers = (await page.locator(".answers-found .sentence").allTextContents()).join(" ");
    expect(answers).toMatch(withComma);
    expect(answers).not.toMatch(withPoint);
    const reported = (await frame.locator(".sentence").allTextContents()).join(" ");
    expect(reported).toMatch(withComma);
    expect(reported).not.toMatch(withPoint);
    // what German writes, by the CLDR data of the browser itself
    const price = await page.evaluate(() => (24.9).toLocaleString("de-DE", { style: "currency", currency: "EUR" }));
    expect((await frame.locator("body").textContent())!.includes(price)).toBe(true);
    expect(await frame.locator("[data-grid='trays'] .grid-row .number").allTextContents()).not.toContainEqual(
      expect.stringMatching(/\d\.\d{1,2}$/),
    );
    const { text } = await saved(page, "Cleaned sheet");
    expect(text).toMatch(/,\d+\.\d+,/);
    // it stands among what was decided, and can be answered otherwise
    const asked = page.locator("[data-setting='locale']");
    expect(await asked.textContent()).toContain("as this browser does");
    await page.locator("details.fold", { has: asked }).locator("summary").click();
    await asked.getByRole("textbox").fill("en-GB");
    await asked.getByRole("button", { name: "Use it" }).click();
    await page.getByText("The full report follows the answers.").waitFor();
    await waitForAnswers(page);
    expect((await page.locator(".answers-found .sentence").allTextContents()).join(" ")).toMatch(withPoint);
    expect((await saved(page, "Settings")).text).toContain("locale,en-GB");
    expectQuiet(opened);
  });

  test("a book that states its format keeps it in any browser", async () => {
    const { page } = shared();
    await dropFiles(page, smallBook("Number format,en-GB\nCurrency,EUR\n"));
    await waitForAnswers(page);
    expect((await page.locator(".answers-found .sentence").allTextContents()).join(" ")).toMatch(withPoint);
    expect(await page.locator("[data-setting='locale']").count()).toBe(0);
  });
});

describeInBrowser("numbers on the drop page", ({ open }) => {
  test("a browser in Arabic: the digits beside English words stay 0 to 9", async () => {
    const { page } = await open(pageHtml(), { locale: "ar-EG" });
    await dropFiles(page, smallBook());
    await waitForReport(page);
    expect(await page.locator("main").textContent()).not.toMatch(/[\u0660-\u0669]/);
    await page.context().close();
  });
});
