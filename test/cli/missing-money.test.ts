import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { demoCooks } from "./demo-cooks.ts";
import { runProgram } from "./run-program.ts";

test("a cost line that cannot be read: all is written and said, exit code 0, or 1 where that is asked for", () => {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-missing-"));
  try {
    const book = demoCooks(2, join(folder, "book"));
    expect(runProgram("prices", book, "--strict").status).toBe(0);
    const costs = readFileSync(join(book, "costs.csv"), "utf8");
    writeFileSync(join(book, "costs.csv"), costs.replace("shed rent,space,60,", "shed rent,space,6O,"));
    const list = join(folder, "prices.csv");
    const prices = runProgram("prices", book, "--out", list);
    expect(prices.status).toBe(0);
    expect(prices.out).toContain("Money is without: shed rent.");
    expect(prices.out).toContain("costs.csv, row 18");
    expect(readFileSync(list, "utf8").split("\r\n")[1]).toContain("without: shed rent");
    const report = runProgram("report", book, "--out", join(folder, "out"), "--plain", "--strict");
    expect(report.status).toBe(1);
    for (const line of ["Do this next", " waiting: ", "24 trays in 2 cooks", "Money is without: shed rent."])
      expect(report.out).toContain(line);
    expect(readFileSync(join(folder, "out", "book-report.html"), "utf8")).toContain("Without: shed rent.");
    expect(report.out).toContain("Without shed rent everything looks cheaper than it is.");
    // a row that may be typed twice makes it dearer
    writeFileSync(join(book, "costs.csv"), `${costs.trimEnd()}\n${costs.split("\n")[4]}\n`);
    const twice = runProgram("prices", book, "--strict");
    expect(twice.status).toBe(1);
    expect(twice.out).toMatch(/Money is doubtful: .*\.\n/);
    expect(twice.out).not.toContain("cheaper");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
