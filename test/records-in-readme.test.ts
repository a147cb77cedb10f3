import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { costColumns } from "../src/records/cost-line.ts";
import { harvestFields } from "../src/records/harvest-field.ts";
import { productColumns } from "../src/records/product.ts";
import { settingDefinitions } from "../src/records/setting.ts";

const readme = readFileSync(new URL("../README.md", import.meta.url), "utf8");

test("the README names every column and setting there is, with its default", () => {
  for (const { key, unit, meaning } of harvestFields) expect(readme).toContain(`| \`${key}\` | ${unit} | ${meaning} |`);
  for (const { key, default: byDefault, meaning } of settingDefinitions) {
    expect(readme).toMatch(
      new RegExp(`\\| \`${key}\` \\|[^|]*\\| ${byDefault.replace(/[.*+?^$()|[\]\\]/g, "\\$&")} \\| `),
    );
    expect(readme).toContain(`| ${meaning} |`);
  }
  for (const column of [...costColumns, ...productColumns].filter((name) => name !== "note")) {
    expect(readme, column).toContain(`\`${column}\``);
  }
});
