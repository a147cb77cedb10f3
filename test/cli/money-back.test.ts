import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { demoCooks } from "./demo-cooks.ts";
import { runProgram } from "./run-program.ts";

test("a refund that is left out makes costs look higher, and a cost beside it leaves the way open", () => {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-refund-"));
  try {
    const book = demoCooks(2, join(folder, "book"));
    const costs = readFileSync(join(book, "costs.csv"), "utf8").trimEnd();
    const said = (more: string): string => {
      writeFileSync(join(book, "costs.csv"), `${costs}\n${more}\n`);
      return runProgram("report", book, "--json").out;
    };
    const refund = "refund for bags,consumable,6,100,each,1,each,tray";
    const refunded = said(refund);
    expect(refunded).toContain("It is left out, so costs look higher than they are.");
    expect(refunded).toContain("A good dry gram cost at most ");
    expect(refunded).not.toContain("at least €");
    const mixed = said(`${refund}\nlabels,consumable,6O,100,each,1,each,tray`);
    expect(mixed).toContain("It and 1 more are left out, so costs look other than they are.");
    expect(mixed).toContain("Correct labels: ");
    expect(mixed).not.toMatch(/cost at (?:most|least) €/);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
