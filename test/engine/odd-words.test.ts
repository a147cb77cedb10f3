import { describe, expect, test } from "vitest";
import { readBook } from "../../src/engine/read-book.ts";
import { runBook } from "../../src/engine/run-book.ts";
import { sheet } from "../cleaning/book-of.ts";
import { harvestSheet } from "../cli/small-book.ts";

const harvest = sheet("harvests/a.csv", harvestSheet());
const withSettings = (lines: string) => readBook([harvest, sheet("settings.csv", `key,value\n${lines}\n`)]);

describe("settings that make no sense are errors with file and row, and the default stays", () => {
  test.each([
    ["seed", "1e16"],
    ["seed", "-1"],
    ["seed", "1.5"],
    ["decimal_mark", "constructor"],
    ["decimal_mark", "__proto__"],
    ["shelf_places", "1e99"],
    ["jar_ml", "1e-320"],
    ["currency", "toString"],
    ["locale", "toString"],
    ["display_units", "valueOf"],
    ["report_date", "9999-99-99"],
    ["outlier_z", "Infinity"],
    ["interval_level", "NaN"],
  ])("%s,%s", async (key, value) => {
    const { settings } = await withSettings("");
    const read = await withSettings(`${key},${value}`);
    expect(read.settings).toEqual(settings);
    const errors = read.issues.filter((issue) => issue.file === "settings.csv" && issue.severity === "error");
    expect(errors).toMatchObject([{ row: 2, raw: value }]);
    expect(errors[0]!.action).toMatch(/Correct/);
  });
});

const words = ["__proto__", "constructor", "toString", "hasOwnProperty", "valueOf"];

test("words that every object knows are words like others, as headers and in cells of every sheet", async () => {
  const head = ["tray_id", "batch", "inoculum_ml", "outcome", "fresh_g", "dry_g", ...words];
  const own = (tray: number) => words.map((word, at) => ((tray + at) % 3 === 0 ? word : `x${tray % 2}`));
  const trays = Array.from({ length: 16 }, (_, k) =>
    [`T${k}`, `C${1 + (k % 4)}`, k % 2 === 0 ? "3" : "6", "good", 200 + k, 20 + k, ...own(k)].join(","),
  );
  const again = trays.map((_, k) => `T${k},${20 + k},constructor,toString`);
  const costs = words.map((word) => [word, word, 5, 10, word, 1, ...Array(4).fill(word)].join(","));
  const products = words.map((word) => [word, word, word, 100, 5, word, word].join(","));
  const keys = ["decimal_mark", "date_order", "currency", "display_units", "sheet_role", "mass_unit", "varied"];
  const { book, answers } = await runBook([
    sheet("harvests/a.csv", [head.join(","), ...trays].join("\n")),
    sheet("harvests/b.csv", ["tray_id,dry_g,strain,note", ...again].join("\n")),
    sheet(
      "costs.csv",
      [
        "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per,only_where_column,only_where_value",
        ...costs,
        "bag,consumable,5,10,piece,1,piece,tray,constructor,x1",
        "grain,ingredient,5,1 kg,,100 g,,kg constructor,,",
      ].join("\n"),
    ),
    sheet("products.csv", ["product,form,channel,grams,current_price,tax_included,fee_base", ...products].join("\n")),
    sheet("settings.csv", ["key,value", ...[...words, ...keys].map((key, at) => `${key},${words[at % 5]}`)].join("\n")),
    sheet("columns.csv", ["file,header,field", ...words.map((word) => `${word},${word},${word}`)].join("\n")),
  ]);
  expect(book.trays).toHaveLength(16);
  const read = Object.entries(book.trays[1]!.factors).sort();
  expect(read).toEqual(words.map((word, at) => [word, own(1)[at]]).sort());
  const failures = answers.flatMap(({ outcome }) => (outcome.kind === "cannot-tell" ? (outcome.failure ?? []) : []));
  expect(failures).toEqual([]);
  // the line of trays whose column says x1 is counted
  expect(book.costLines!.map(({ item }) => item)).toContain("bag");
});
