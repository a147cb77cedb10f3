import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { terminalText } from "../../src/cli/print.ts";
import { runProgram } from "./run-program.ts";

test("control characters and turned directions stand as their codes, line ends and letters as they are", () => {
  expect(terminalText("a\u001b[2Jb\u0007\u009b31m\u202ec\r\n\u0000d\u2028")).toBe(
    "a\\u001b[2Jb\\u0007\\u009b31m\\u202ec\\u000d\n\\u0000d\\u2028",
  );
  expect(terminalText("Kräuter 平菇 🍄‍🟫 „Sommer“\n")).toBe("Kräuter 平菇 🍄‍🟫 „Sommer“\n");
  const data = { name: "a\u007f\u009b\u202eb" };
  expect(JSON.parse(terminalText(JSON.stringify(data, null, 2)))).toEqual(data);
});

test("no command passes on what a sheet, a file name or an argument would tell the terminal", () => {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-print-"));
  try {
    const evil = "\u001b]0;owned\u0007\u001b[2J\u009b31m";
    const book = join(folder, `b${evil}`);
    mkdirSync(join(book, "harvests"), { recursive: true });
    const rows = Array.from({ length: 8 }, (_, k) => `T${k}${evil},C1,5,good,2${k}0${evil},2${k},${evil}`);
    writeFileSync(
      join(book, "harvests", `a${evil}.csv`),
      ["tray_id,batch,inoculum_ml,outcome,fresh_g,dry_g,note", ...rows].join("\n"),
    );
    writeFileSync(join(book, "settings.csv"), `key,value\n${evil},1\nbook_title,${evil}\ncurrency,${evil}\n`);
    const out = join(folder, "out");
    for (const args of [
      ["check", book, "--all"],
      ["report", book, "--out", out, "--plain"],
      ["report", `${book}x`],
      ["prices", book],
      ["brew", evil],
      ["report", book, `--${evil}`],
    ]) {
      const { out: said, err } = runProgram(...args);
      expect((said + err).replaceAll("\n", ""), args[0]).not.toMatch(/\p{Cc}/u);
      expect((said + err).length).toBeGreaterThan(10);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("nothing in the command line prints past it", () => {
  const own = ["print.ts", "progress.ts"];
  const folder = fileURLToPath(new URL("../../src/cli/", import.meta.url));
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  expect(files).toContain("output/output-set.ts".replaceAll("/", sep));
  const wrong = files.filter(
    (name) =>
      !own.includes(name) &&
      /process\.std(out|err)\.write\(|console\.\w+\(/.test(readFileSync(join(folder, name), "utf8")),
  );
  expect(wrong).toEqual([]);
});
