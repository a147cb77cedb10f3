import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { killCommands } from "../bench/kill-commands.ts";
import { mutatedBooks } from "../bench/mutated-sheets.ts";
import { builtFile } from "../built-file.ts";

// the long runs: npm run bench -- faults

test("a command killed before a step that changes the disk leaves the old files or the new ones", async () => {
  builtFile("gramwright.js");
  const folder = mkdtempSync(join(tmpdir(), "gramwright-kills-"));
  try {
    const [found] = await killCommands(folder, 0, ["page"], 3);
    expect(found).toMatchObject({ torn: 0, mixed: 0, "next run fails": 0, "left behind": 0 });
    expect(found!.kills).toBeGreaterThan(2);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 240_000);

test("sheets and books with faults typed into them: nothing throws, no row is missing, no question fails", async () => {
  const found = await mutatedBooks(60, 1, 23);
  expect(found).toMatchObject({ thrown: 0, "rows missing": 0, "questions failed": 0 });
}, 240_000);
