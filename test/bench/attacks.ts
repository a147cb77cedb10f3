import { createHash } from "node:crypto";
import { readdirSync, readFileSync, readlinkSync } from "node:fs";
import { join } from "node:path";

const hashOf = (path: string): string => createHash("sha256").update(readFileSync(path)).digest("hex");

/** Every file and link under a folder by its name there, with the hash of its content or where it leads; none is followed. */
export const contents = (folder: string, below = ""): Map<string, string> =>
  new Map(
    readdirSync(join(folder, below), { withFileTypes: true })
      .sort((a, b) => (a.name < b.name ? -1 : 1))
      .flatMap((entry): [string, string][] => {
        const name = below === "" ? entry.name : `${below}/${entry.name}`;
        const path = join(folder, name);
        if (entry.isDirectory()) return [...contents(folder, name)];
        if (entry.isSymbolicLink()) return [[name, readlinkSync(path)]];
        return entry.isFile() ? [[name, hashOf(path)]] : [];
      }),
  );

/** How many files under the folders were changed, added or taken away while work was done. */
export async function changedIn(folders: ReadonlyArray<string>, work: () => void | Promise<void>): Promise<number> {
  const before = folders.map((folder) => contents(folder));
  await work();
  return folders
    .map((folder) => contents(folder))
    .map((after, index) => {
      const names = new Set([...before[index]!.keys(), ...after.keys()]);
      return [...names].filter((name) => before[index]!.get(name) !== after.get(name)).length;
    })
    .reduce((sum, one) => sum + one, 0);
}

/** What was found wrong in one attack, each fault with its count. */
export type Faults = Readonly<Record<string, number>>;

/** The attacks of a run as one table: what was tried, how often, what went wrong, and what should. */
export class AttackTable {
  private static readonly widths = [52, 7, 34];

  private line(cells: ReadonlyArray<string>): void {
    console.log(cells.map((cell, column) => cell.padEnd(AttackTable.widths[column] ?? 0)).join("  "));
  }

  constructor() {
    this.line(["attack", "tried", "wrong", "goal"]);
  }

  /**
   * Prints one attack.
   * @param wrong counts of faults; only those above 0 are shown
   * @param goal 0 of each fault unless something else is wanted
   */
  add(attack: string, tried: number | string, wrong: Faults, goal = `0 ${Object.keys(wrong).join(", ")}`): void {
    const found = Object.entries(wrong).filter(([, count]) => count !== 0);
    const shown = found.length === 0 ? "0" : found.map(([what, count]) => `${count} ${what}`).join(", ");
    this.line([attack, String(tried), shown, goal]);
  }

  /** Prints that an attack cannot be made on this machine. */
  skip(attack: string, why: string): void {
    this.line([attack, "-", `skipped: ${why}`, ""]);
  }
}
