import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { costColumns } from "../src/records/cost-line.ts";
import { harvestFields } from "../src/records/harvest-field.ts";
import { productColumns } from "../src/records/product.ts";
import { settingDefinitions } from "../src/records/setting-definitions.ts";

const page = readFileSync(new URL("../docs/book.md", import.meta.url), "utf8");

test("the page of the book names every column and setting there is, with its default", () => {
  for (const { key, unit, meaning } of harvestFields) expect(page).toContain(`| \`${key}\` | ${unit} | ${meaning} |`);
  for (const { key, default: byDefault, meaning } of settingDefinitions) {
    expect(page).toMatch(
      new RegExp(`\\| \`${key}\` \\|[^|]*\\| ${byDefault.replace(/[.*+?^$()|[\]\\]/g, "\\$&")} \\| `),
    );
    expect(page).toContain(`| ${meaning} |`);
  }
  for (const column of [...costColumns, ...productColumns].filter((name) => name !== "note")) {
    expect(page, column).toContain(`\`${column}\``);
  }
});
