import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { AttackTable } from "./attacks.ts";
import { bombs } from "./bombs.ts";
import { fullDisk } from "./full-disk.ts";
import { killCommands } from "./kill-commands.ts";
import { liveFormulas } from "./live-formulas.ts";
import { mutatedBooks } from "./mutated-sheets.ts";
import { strangePlaces } from "./strange-places.ts";

const full = { kills: 100, sheets: 20_000, books: 300 };
const short = { kills: 4, sheets: 200, books: 6 };

/** The attacks by the name of their piece; each can be made by itself. */
const pieces: Record<string, (folder: string, table: AttackTable, sizes: typeof full) => void | Promise<void>> = {
  places: strangePlaces,
  bombs: (folder, table) => bombs(folder, table),
  disk: fullDisk,
  formulas: liveFormulas,
  sheets: async (_, table, { sheets, books }) => void (await mutatedBooks(table, sheets, books)),
  kills: async (folder, table, { kills }) => void (await killCommands(folder, table, kills)),
};

/**
 * Attacks on files, time and answers, as one table of what went wrong.
 * @param wanted names of pieces, all unless given; "short" makes fewer tries
 * @throws RangeError where there is no such piece
 */
export async function benchFaults(wanted: ReadonlyArray<string> = []): Promise<void> {
  const names = wanted.filter((name) => name !== "short");
  const unknown = names.find((name) => !Object.hasOwn(pieces, name));
  if (unknown !== undefined)
    throw new RangeError(`benchFaults: no piece ${unknown}; ${Object.keys(pieces).join(", ")}`);
  const folder = mkdtempSync(join(tmpdir(), "gramwright-faults-"));
  const table = new AttackTable();
  try {
    for (const [name, attack] of Object.entries(pieces)) {
      if (names.length > 0 && !names.includes(name)) continue;
      await attack(folder, table, wanted.includes("short") ? short : full);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
