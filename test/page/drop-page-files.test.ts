import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { describeInBrowser } from "../browser.ts";
import { odsOf, xlsxOf } from "../cli/workbook-files.ts";
import workbooks from "../reference/workbooks-openpyxl.json" with { type: "json" };
import { dropFromDisk, expectQuiet, saved, sharedPage, waitForAnswers, waitForReport } from "./drop-page.ts";

const harvest = (trays: number): string =>
  [
    "tray_id,batch,inoculum_ml,inoculated_on,harvested_on,outcome,fresh_g,dry_g,note",
    ...Array.from({ length: trays }, (_, tray) => {
      const dose = tray % 2 === 0 ? 5 : 10;
      return `T${tray + 1},C1,${dose},2026-03-04,2026-04-20,good,${300 + dose + 3 * tray},${30.5 + dose + tray},"käse, <b>""ok""</b>"`;
    }),
  ].join("\n");
const costs =
  "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per\nsorghum,ingredient,31,25,kg,380,g,tray\n";
const products = "product,form,grams,price,channel\nslices 50 g,dried,50,24.90,market place\n";

const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A compound file ([MS-CFB]) whose directory names a workbook of the old kind. */
function oldWorkbook(): Uint8Array {
  const bytes = new Uint8Array(2048);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  [..."Workbook"].forEach((letter, index) => {
    bytes[1024 + 2 * index] = letter.charCodeAt(0);
  });
  return bytes;
}

/** Writes files below a folder of their own, hands their paths to the work, and removes them. */
async function withFiles(
  files: Record<string, Uint8Array>,
  work: (folder: string, paths: string[]) => Promise<void>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-drop-"));
  try {
    const paths = Object.entries(files).map(([name, bytes]) => {
      const path = join(folder, name);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, bytes);
      return path;
    });
    await work(folder, paths);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const choose = (page: Page, paths: string[]) => page.setInputFiles("input.chooser", paths);
const drop = (page: Page, paths: string[]) => dropFromDisk(page, paths);

/** What each sheet was taken for, by its name. */
async function uses(page: Page): Promise<Record<string, string>> {
  const rows = page.locator(".sheet-list li");
  const names = await rows.locator(".sheet-name").allTextContents();
  const reported = await rows.locator(".use").allTextContents();
  return Object.fromEntries(names.map((name, index) => [name, reported[index]!]));
}

/** The lines of a cleaned sheet of 12 trays by what is the same whatever kind of file they came from. */
const withoutPlace = (text: string) => text.replaceAll(/spring harvest\.\w+(?: > \w+)?/g, "sheet");

describeInBrowser("files on the drop page", ({ open }) => {
  const shared = sharedPage(open);

  test("a book of three workbooks, .xlsx or .ods, chosen or dropped, reads as the same cells in CSV", async () => {
    const opened = shared();
    const { page } = opened;
    const texts = { "spring harvest": harvest(12), costs, products };
    const cleaned = new Map<string, string>();
    for (const [how, ending, made, hand] of [
      ["CSV chosen", "csv", encoded, choose],
      ["CSV dropped", "csv", encoded, drop],
      [".xlsx dropped", "xlsx", xlsxOf, drop],
      [".ods dropped", "ods", odsOf, drop],
    ] as const) {
      const files = Object.entries(texts).map(([name, text]) => [`${name}.${ending}`, made(text)]);
      await withFiles(Object.fromEntries(files), async (_, paths) => {
        await hand(page, paths);
        await page.getByText("The full report follows the answers.").waitFor();
        await waitForAnswers(page);
      });
      expect(await uses(page), how).toEqual({
        [`spring harvest.${ending}`]: "harvest sheet, 12 rows",
        [`costs.${ending}`]: "cost sheet, 1 line",
        [`products.${ending}`]: "product sheet, 1 product",
      });
      cleaned.set(how, withoutPlace((await saved(page, "Cleaned sheet")).text));
      // the report is of the cells, which are the same: it is waited for once
      if (how === ".ods dropped") await waitForReport(page);
      await page.getByRole("button", { name: "Take all out" }).click();
      await page.getByText("Drop your sheets here").waitFor();
    }
    const asCsv = cleaned.get("CSV chosen")!;
    expect(asCsv.split("\r\n").filter((line) => /^T\d+,/.test(line))).toHaveLength(12);
    for (const [how, text] of cleaned) expect(text, how).toBe(asCsv);
    expectQuiet(opened);
  });

  test("a workbook written by another program (openpyxl): title line, units in cells and dates as they stand in it", async () => {
    const opened = shared();
    const bytes = Uint8Array.from(atob(workbooks.workbook1900), (letter) => letter.charCodeAt(0));
    await withFiles({ "trial.xlsx": bytes }, async (_, paths) => {
      await choose(opened.page, paths);
      await opened.page.locator(".sheet-list .use", { hasText: "harvest sheet, 2 rows" }).waitFor();
    });
    expect((await saved(opened.page, "Cleaned sheet")).text).toMatch(/^T1,.*2026-03-04/m);
    expectQuiet(opened);
  });

  test.each(["chosen", "dropped"] as const)(
    "a whole folder, %s: its sheets in their places, its name the book's",
    async (how) => {
      const opened = shared();
      const { page } = opened;
      const files = {
        "lantern shed/harvests/spring.csv": encoded(harvest(8)),
        "lantern shed/harvests/summer.xlsx": xlsxOf(harvest(6).replaceAll(/^T/gm, "U")),
        "lantern shed/costs.ods": odsOf(costs),
        "lantern shed/photo.png": encoded("x"),
        "lantern shed/.kept/harvests/old.csv": encoded(harvest(4)),
      };
      await withFiles(files, async (folder) => {
        const path = join(folder, "lantern shed");
        if (how === "dropped") await dropFromDisk(page, [path]);
        else await page.setInputFiles("input.folder-chooser", path);
        await waitForAnswers(page);
      });
      expect(await uses(page)).toEqual({
        "harvests/spring.csv": "harvest sheet, 8 rows",
        "harvests/summer.xlsx": "harvest sheet, 6 rows",
        "costs.ods": "cost sheet, 1 line",
      });
      expect(await page.locator(".drop-notes li").allTextContents()).toEqual([
        "Not read: .kept (hidden files are not read).",
        "Not read: photo.png (another kind of document, not a sheet).",
      ]);
      expect((await saved(page, "Log")).name).toBe("lantern-shed-log.csv");
      expectQuiet(opened);
    },
  );

  test.each([
    ["an empty file", "spring.csv", new Uint8Array(0), /the file is empty\. Put a header row/],
    [
      "a workbook cut short",
      "spring.ods",
      odsOf(harvest(8)).slice(0, 500),
      /damaged and cannot be read.*let it repair/,
    ],
    ["an old workbook", "spring.xls", oldWorkbook(), /old \.xls format.*Save it as \.xlsx/],
  ] as const)(
    "%s: alone it is said in plain words, beside a good sheet it is passed over",
    async (what, name, bytes, said) => {
      const opened = shared();
      const { page } = opened;
      await withFiles({ [name]: bytes }, async (_folder, paths) => {
        await drop(page, paths);
        await page.getByRole("alert").waitFor();
      });
      expect(await page.getByRole("alert").textContent()).toMatch(said);
      expect(await page.getByRole("alert").textContent()).toContain(name);
      await withFiles({ "good.xlsx": xlsxOf(harvest(8)) }, async (_folder, paths) => {
        await choose(page, paths);
        await waitForAnswers(page);
      });
      const reported = await uses(page);
      expect(reported["good.xlsx"]).toBe("harvest sheet, 8 rows");
      expect(reported[name]).toMatch(/^not used: /);
      // what is left of the way is the same for each: one of them goes it to its end
      if (what === "an old workbook") await waitForReport(page);
      expectQuiet(opened);
    },
  );

  test("a workbook of other things is named as the trouble it is", async () => {
    const opened = shared();
    await withFiles({ "stock.xlsx": xlsxOf("colour,shape\nred,round\n") }, async (_, paths) => {
      await choose(opened.page, paths);
      await opened.page.locator(".sheet-list .use.trouble").waitFor();
    });
    expect((await uses(opened.page))["stock.xlsx"]).toMatch(/no column of the sheet is known/);
    expectQuiet(opened);
  });

  test("two sheets of one name in one drop: both are read where they differ, once where they do not; later ones replace", async () => {
    const opened = shared();
    const { page } = opened;
    const files = {
      "a/spring.csv": encoded(harvest(8)),
      "b/spring.csv": encoded(harvest(6).replaceAll(/^T/gm, "U")),
      "c/spring.csv": encoded(harvest(8)),
    };
    await withFiles(files, async (_, paths) => {
      await choose(page, paths);
      await waitForAnswers(page);
    });
    expect(await uses(page)).toEqual({
      "spring.csv": "harvest sheet, 8 rows",
      "spring (2).csv": "harvest sheet, 6 rows",
    });
    expect(await page.locator(".drop-notes li").allTextContents()).toEqual([
      "Two different sheets are called spring.csv: both are read, one as spring (2).csv.",
      "spring.csv came twice with the same contents: read once.",
    ]);
    await withFiles({ "spring.csv": encoded(harvest(10)) }, async (_, paths) => {
      await choose(page, paths);
      await page.locator(".sheet-list .use", { hasText: "harvest sheet, 10 rows" }).waitFor();
    });
    expect(await page.locator(".sheet-list li").count()).toBe(2);
    expect(await page.locator(".drop-notes li").allTextContents()).toEqual([
      "Read again in place of the sheet before: spring.csv.",
    ]);
    // a browser may number them itself
    await page.getByRole("button", { name: "Take all out" }).click();
    await withFiles(files, async (_, paths) => {
      await drop(page, paths);
      await waitForAnswers(page);
    });
    expect(Object.values(await uses(page)).sort()).toEqual(["harvest sheet, 6 rows", "harvest sheet, 8 rows"]);
    expectQuiet(opened);
  });

  test("a file that is gone before it is read: said by name, the others are read", async () => {
    const opened = shared();
    const { page } = opened;
    await withFiles({ "gone.csv": encoded(harvest(8)), "good.csv": encoded(harvest(8)) }, async (_, paths) => {
      await page.evaluate(() => {
        document.addEventListener("change", (event) => event.stopImmediatePropagation(), { capture: true, once: true });
      });
      await choose(page, paths);
      rmSync(paths[0]!);
      await page.dispatchEvent("input.chooser", "change");
      await waitForAnswers(page);
    });
    expect(await uses(page)).toEqual({ "good.csv": "harvest sheet, 8 rows" });
    expect(await page.locator(".drop-notes li").allTextContents()).toEqual([
      expect.stringMatching(/^Could not be read: gone\.csv\. It was moved or deleted meanwhile/),
    ]);
    expectQuiet(opened);
  });
});
