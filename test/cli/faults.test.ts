import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { AttackTable, type Faults } from "../bench/attacks.ts";
import { killCommands } from "../bench/kill-commands.ts";
import { mutatedBooks } from "../bench/mutated-sheets.ts";
import { builtFile } from "../built-file.ts";

// the long runs: npm run bench -- faults

const faultsIn = (found: Faults): string[] => Object.keys(found).filter((what) => found[what] !== 0);

test("a command killed before a step that changes the disk leaves the old files or the new ones", async () => {
  builtFile("gramwright.js");
  const folder = mkdtempSync(join(tmpdir(), "gramwright-kills-"));
  try {
    const [page] = await killCommands(folder, new AttackTable(), 0, ["page"], 3);
    expect(faultsIn(page!.found)).toEqual([]);
    expect(page!.kills).toBeGreaterThan(2);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 240_000);

test("sheets and books with faults typed into them: nothing throws, no row is missing, no question fails", async () => {
  const { "over 5 s": _, ...found } = await mutatedBooks(new AttackTable(), 60, 1, 23);
  expect(faultsIn(found)).toEqual([]);
}, 240_000);
