import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ownOutput } from "../../src/engine/own-output.ts";
import { contents, printAttack } from "./attacks.ts";
import { killCommands } from "./kill-commands.ts";
import { liveFormulas } from "./live-formulas.ts";
import { mutatedBooks } from "./mutated-sheets.ts";

const program = "dist/gramwright.js";
const demo = "data-samples/demo-book";

/** A disk that is full: the old set stays, nothing else is left. */
function fullDisk(folder: string): void {
  const disk = join(folder, "disk");
  mkdirSync(disk);
  if (spawnSync("mount", ["-t", "tmpfs", "-o", "size=3m", "tmpfs", disk]).status !== 0) {
    console.log("full disk: skipped, no disk may be mounted here");
    return;
  }
  try {
    const report = (...more: string[]) =>
      spawnSync(process.execPath, [program, "report", demo, "--out", disk, "--plain", ...more], { encoding: "utf8" });
    const first = report();
    const before = JSON.stringify([...contents(disk)]);
    // what is left is less than a report takes
    spawnSync("dd", ["if=/dev/zero", `of=${join(disk, "filling")}`, "bs=1k"], { stdio: "ignore" });
    const second = report("--seed", "7");
    rmSync(join(disk, "filling"));
    printAttack("full disk", {
      "first exit": first.status ?? -1,
      "second exit": second.status ?? -1,
      "old set changed": JSON.stringify([...contents(disk)]) === before ? 0 : 1,
      said: JSON.stringify(second.stderr.trim().slice(0, 120)),
    });
  } finally {
    spawnSync("umount", [disk]);
  }
}

/** What is no file, and links: refused or passed over at once. */
function strangePlaces(folder: string): void {
  const pipe = join(folder, "pipe.csv");
  spawnSync("mkfifo", [pipe]);
  const round = join(folder, "round");
  cpSync(demo, round, { recursive: true });
  symlinkSync("..", join(round, "harvests", "up"));
  symlinkSync("/", join(round, "harvests", "everything"));
  symlinkSync("/dev/zero", join(round, "harvests", "endless.csv"));
  spawnSync("mkfifo", [join(round, "harvests", "pipe.csv")]);
  for (const args of [
    ["check", pipe],
    ["check", "/dev/zero"],
    ["check", "/proc/self/environ"],
    ["page", "/dev/null"],
    ["page", "/proc/x.html"],
    ["page", pipe],
    ["check", round],
  ]) {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, [program, ...args], { stdio: "ignore", timeout: 20_000 });
    const took = performance.now() - start;
    printAttack(args.join(" ").replace(folder, ""), { exit: status ?? "stuck", "over 5 s": took > 5000 ? 1 : 0 });
  }
}

/** The parts of the attacks; each can be made by itself. */
type Part = "places" | "sheets" | "kills";

/**
 * Attacks on files, time and answers, each with what it did.
 * @param parts which of them: strange places, formulas and a full disk; mutated sheets and books; kills
 * @param sizes smaller ones for a quick look
 */
export async function benchFaults(
  parts: ReadonlyArray<Part> = ["places", "sheets", "kills"],
  sizes = { kills: 100, sheets: 20_000, books: 300 },
): Promise<void> {
  if (ownOutput("file,row") !== undefined) throw new Error("benchFaults: a stranger's sheet passes for ours");
  const folder = mkdtempSync(join(tmpdir(), "gramwright-faults-"));
  try {
    if (parts.includes("places")) {
      strangePlaces(folder);
      await liveFormulas(folder);
      fullDisk(folder);
    }
    if (parts.includes("sheets")) await mutatedBooks(sizes.sheets, sizes.books);
    if (parts.includes("kills")) await killCommands(folder, sizes.kills);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
