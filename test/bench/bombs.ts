import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { AttackTable } from "./attacks.ts";
import { bombFiles, bombFolders, hollowFile, xlsx } from "./bomb-files.ts";
import { commandLine } from "./command-line.ts";

/** What one sheet may take: processor seconds and MB. */
const most = { seconds: 2, megabytes: 300 };

/** Sheets that are made to take for ever or all memory: a clear error or a normal reading, soon and in little memory. */
export function bombs(folder: string, table: AttackTable, only = /(?:)/): void {
  const tryOne = (what: string, path: string, trays?: number): void => {
    const { status, out, err, seconds, megabytes } = commandLine(["check", path, "--json"]);
    const read: { trays: number; issues: { severity: string; reason: string }[] } | undefined =
      status === 0 || status === 1 ? JSON.parse(out) : undefined;
    const error = read?.issues.find(({ severity }) => severity === "error");
    const found = {
      "not ended": status === null ? 1 : 0,
      thrown: status === 70 || /\n {4}at /.test(err) ? 1 : 0,
      "neither read nor refused": read !== undefined && read.trays === 0 && error === undefined ? 1 : 0,
      "trays missing": trays === undefined ? 0 : trays - (read?.trays ?? 0),
      [`s beyond ${most.seconds}`]: Math.max(0, Math.round(10 * (seconds - most.seconds)) / 10),
      [`MB beyond ${most.megabytes}`]: Math.max(0, Math.round(megabytes - most.megabytes)),
    };
    const took = `${seconds.toFixed(1)} s, ${Math.round(megabytes)} MB`;
    const said = error === undefined ? `${read?.trays ?? 0} trays` : error.reason.slice(0, 90);
    table.add(what, took, found, `read or refused within ${most.seconds} s, ${most.megabytes} MB; said: ${said}`);
  };
  for (const { what, ending, make, trays } of bombFiles) {
    if (!only.test(`${what} (.${ending})`)) continue;
    const path = join(folder, `bomb.${ending}`);
    writeFileSync(path, make());
    tryOne(`${what} (.${ending})`, path, trays);
    rmSync(path);
  }
  for (const { what, files, trays } of bombFolders) {
    if (!only.test(what)) continue;
    const book = join(folder, "bomb");
    mkdirSync(book);
    for (const [name, text] of files()) writeFileSync(join(book, name), text);
    tryOne(what, book, trays);
    rmSync(book, { recursive: true });
  }
  const start = xlsx(["<worksheet/>"]);
  if (!only.test("a file of 3 GB")) return;
  for (const name of ["hollow.xlsx", "hollow.csv"]) {
    const path = hollowFile(
      folder,
      name,
      name.endsWith("csv") ? new TextEncoder().encode("tray_id,dry_g\nT1,20\n") : start,
      3e9,
    );
    tryOne(`a file of 3 GB (${name})`, path);
    rmSync(path);
  }
}
