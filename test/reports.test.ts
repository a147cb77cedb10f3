import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { runProgram } from "./cli/run-program.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

test("the committed answers and log of the demo book are what a run gives today", () => {
  const out = mkdtempSync(join(tmpdir(), "gramwright-reports-"));
  try {
    expect(runProgram("report", join(root, "data-samples/demo-book"), "--out", out).status).toBe(0);
    for (const name of ["demo-book-answers.json", "demo-book-log.csv"]) {
      const committed = readFileSync(join(root, "reports", name), "utf8");
      expect(readFileSync(join(out, name), "utf8"), `${name}: run npm start and read what moved`).toBe(committed);
    }
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
});
