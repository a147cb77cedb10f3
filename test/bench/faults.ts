import { spawn, spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeCsv } from "../../src/csv/write-csv.ts";
import { ownOutput } from "../../src/engine/own-output.ts";
import { readBook } from "../../src/engine/read-book.ts";
import { runBook } from "../../src/engine/run-book.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

const program = "dist/gramwright.js";
const demo = "data-samples/demo-book";

/** Every file under a folder with its content: what nothing may change. */
const contents = (folder: string): string =>
  JSON.stringify(
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .sort()
      .map((name) => {
        const path = join(folder, name);
        return [name, existsSync(path) && !name.endsWith("harvests") ? readFileSync(path).toString("base64") : ""];
      }),
  );

function printRow(attack: string, result: Record<string, number | string>): void {
  const parts = Object.entries(result).map(([what, count]) => `${what} ${count}`);
  console.log(`${attack}: ${parts.join(", ")}`);
}

/** Runs the program and kills it at a moment; says how long it ran. */
const killedAfter = (args: ReadonlyArray<string>, milliseconds: number): Promise<boolean> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, [program, ...args], { stdio: "ignore" });
    const timer = setTimeout(() => child.kill("SIGKILL"), milliseconds);
    child.on("exit", (_, signal) => {
      clearTimeout(timer);
      resolve(signal === "SIGKILL");
    });
  });

/** Kills commands that write at random moments: what is there afterwards must be whole, and the next run must work. */
async function killAtRandom(folder: string, kills: number): Promise<void> {
  const random = seededRandom(5);
  const commands: Record<string, (out: string) => string[]> = {
    report: (out) => ["report", demo, "--out", out, "--plain"],
    prices: (out) => ["prices", demo, "--out", join(out, "prices.csv")],
    plan: (out) => ["plan", demo, "--out", out],
    check: (out) => ["check", demo, "--log", join(out, "log.csv"), "--fixed", join(out, "cleaned.csv")],
    page: (out) => ["page", join(out, "page.html")],
  };
  const before = contents(demo);
  for (const [name, argsOf] of Object.entries(commands)) {
    const out = join(folder, `kill-${name}`);
    mkdirSync(out);
    const start = performance.now();
    spawnSync(process.execPath, [program, ...argsOf(out)], { stdio: "ignore" });
    const whole = performance.now() - start;
    const names = (): string[] => readdirSync(out).filter((file) => !file.startsWith("."));
    const sound = new Map(names().map((file) => [file, readFileSync(join(out, file), "utf8")]));
    const found = { kills: 0, torn: 0, "next run fails": 0, "left behind": 0 };
    for (let kill = 0; kill < kills; kill++) {
      // most moments lie where the files are written
      if (!(await killedAfter(argsOf(out), whole * (0.5 + 0.6 * random.uniform())))) continue;
      found.kills++;
      for (const file of names()) {
        const same = sound.get(file.replace(/-\d+(\.\w+)$/, "$1"));
        if (readFileSync(join(out, file), "utf8") !== same) found.torn++;
      }
    }
    const { status } = spawnSync(process.execPath, [program, ...argsOf(out)], { stdio: "ignore" });
    if (status !== 0) found["next run fails"]++;
    found["left behind"] = readdirSync(out).filter((file) => file.startsWith(".")).length;
    printRow(`kill -9 of ${name} at random moments`, found);
  }
  printRow("originals after all of it", { changed: contents(demo) === before ? 0 : 1 });
}

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
    const before = contents(disk);
    // what is left is less than a report takes
    spawnSync("dd", ["if=/dev/zero", `of=${join(disk, "filling")}`, "bs=1k"], { stdio: "ignore" });
    const second = report("--seed", "7");
    rmSync(join(disk, "filling"));
    printRow("full disk", {
      "first exit": first.status ?? -1,
      "second exit": second.status ?? -1,
      "old set changed": contents(disk) === before ? 0 : 1,
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
    printRow(args.join(" ").replace(folder, ""), { exit: status ?? "stuck", "over 5 s": took > 5000 ? 1 : 0 });
  }
}

const spice = [..."\u0000\u001b\u00a0\u200b\ufeff,;\t\"'=+-@\n\r|%°€½()[]{}<>&\\/", "NaN", "1e999", "-0", "__proto__"];

/** A text with some of it changed, cut, doubled or spiced. */
export function mutated(text: string, random: ReturnType<typeof seededRandom>): string {
  let changed = text;
  for (let times = 1 + random.integer(12); times > 0; times--) {
    const at = random.integer(changed.length + 1);
    const length = random.integer(40);
    const piece = changed.slice(at, at + length);
    const what = random.integer(5);
    const instead =
      what === 0
        ? ""
        : what === 1
          ? piece + piece
          : what === 2
            ? spice[random.integer(spice.length)]!.repeat(1 + random.integer(3)) + piece
            : what === 3
              ? piece.split("").reverse().join("")
              : String.fromCodePoint(random.integer(0xd7ff));
    changed = changed.slice(0, at) + instead + changed.slice(at + length);
  }
  return changed;
}

export function sourceOf(path: string, text: string): SheetSource {
  const bytes = new TextEncoder().encode(text);
  return { path, size: bytes.length, chunks: () => [bytes] };
}

/** Sheets and whole books with faults in them: nothing throws, nothing takes long, and every row is accounted for. */
async function mutatedBooks(sheets: number, books: number): Promise<void> {
  const paths = ["costs.csv", "products.csv", "settings.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"];
  const bases = ["demo-book", "as-typed-book"].map((name) =>
    paths.map((path) => [path, readFileSync(join("data-samples", name, path), "utf8")] as const),
  );
  const random = seededRandom(17);
  const found = { sheets: 0, books: 0, thrown: 0, "over 5 s": 0, "rows missing": 0, "questions failed": 0 };
  // the program's own time, so that a busy machine does not count as a slow sheet
  let slowest = 0;
  const timed = async (work: () => Promise<void>): Promise<void> => {
    const start = process.cpuUsage();
    try {
      await work();
    } catch (error) {
      found.thrown++;
      console.log(String(error));
    }
    const { user, system } = process.cpuUsage(start);
    const seconds = (user + system) / 1e6;
    if (seconds > slowest) slowest = seconds;
    if (seconds > 5) found["over 5 s"]++;
  };
  const rowsMissing = ({ trays, leftOut, harvestFiles }: Awaited<ReturnType<typeof readBook>>): number =>
    harvestFiles.reduce((sum, { file, rows }) => {
      const seen = new Set(
        trays.flatMap((tray) => tray.sources.flatMap((one) => (one.file === file ? [one.row] : []))),
      );
      for (const one of leftOut) if (one.file === file) seen.add(one.row);
      return sum + Math.max(0, rows - seen.size);
    }, 0);
  for (let k = 0; k < sheets; k++) {
    const [path, text] = bases[k % 2]![random.integer(paths.length)]!;
    found.sheets++;
    await timed(async () => {
      found["rows missing"] += rowsMissing(await readBook([sourceOf(path, mutated(text, random))]));
    });
  }
  for (let k = 0; k < books; k++) {
    found.books++;
    await timed(async () => {
      const { book, answers } = await runBook(
        bases[k % 2]!.map(([path, text]) => sourceOf(path, mutated(text, random))),
      );
      found["rows missing"] += rowsMissing(book);
      for (const { outcome } of answers) {
        if (outcome.kind !== "cannot-tell" || outcome.failure === undefined) continue;
        found["questions failed"]++;
        console.log(`${outcome.failure.code}: ${outcome.failure.what}`);
      }
    });
  }
  printRow("mutated sheets and books", { ...found, "slowest, s": slowest.toFixed(2) });
}

/** Cells that a spreadsheet program would run, opened by one with formulas evaluated and each separator. */
function liveFormulas(folder: string): void {
  const before = [
    "",
    " ",
    "\t",
    "\u00a0",
    "\u200b",
    "\ufeff",
    "\u001f",
    "note;",
    "note; ",
    "note\t",
    "note|",
    '"',
    "'",
  ];
  const cells = before.flatMap((start) => ["=1+1", "+1+1", "-1+1", "@SUM(1)", "＝1+1"].map((cell) => start + cell));
  const count = (guard: boolean): number | undefined => {
    writeFileSync(
      join(folder, "cells.csv"),
      writeCsv([["a", "b", "c"], ...cells.map((cell) => ["x", cell, "y"])], { guard }),
    );
    let formulas = 0;
    for (const separator of [44, 59, 9, 124]) {
      const filter = `CSV:${separator},34,76,1,,1033,false,true,false,false,false,0,true`;
      const args = ["--headless", `--infilter=${filter}`, "--convert-to", "fods", "--outdir", folder];
      const { error } = spawnSync("soffice", [...args, join(folder, "cells.csv")], {
        stdio: "ignore",
        timeout: 120_000,
      });
      if (error !== undefined) return undefined;
      for (const name of readdirSync(folder).filter((file) => file.endsWith(".fods"))) {
        formulas += readFileSync(join(folder, name), "utf8").split("table:formula").length - 1;
        rmSync(join(folder, name));
      }
    }
    return formulas;
  };
  const [bare, guarded] = [count(false), count(true)];
  if (bare === undefined || guarded === undefined) console.log("live formulas: skipped, LibreOffice is not installed");
  else
    printRow(`live formulas of ${cells.length} hostile cells under four separators`, { guarded, "not guarded": bare });
}

/** Attacks on files, time and answers, each with what it did. @param sizes smaller ones for a quick look */
export async function benchFaults(sizes = { kills: 100, sheets: 20_000, books: 300 }): Promise<void> {
  if (ownOutput("file,row") !== undefined) throw new Error("benchFaults: a stranger's sheet passes for ours");
  const folder = mkdtempSync(join(tmpdir(), "gramwright-faults-"));
  try {
    strangePlaces(folder);
    liveFormulas(folder);
    fullDisk(folder);
    await mutatedBooks(sizes.sheets, sizes.books);
    await killAtRandom(folder, sizes.kills);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
