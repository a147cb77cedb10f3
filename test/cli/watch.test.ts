import { spawn } from "node:child_process";
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeAll, beforeEach, expect, onTestFinished, test } from "vitest";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { keepReport } from "../../src/cli/command-watch.ts";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { builtFile } from "../built-file.ts";
import { costSheet, harvestSheet } from "./small-book.ts";

const usual = { settle: 200, soon: 50, watched: 400, unwatched: 200 };
let folder = "";
let book = "";
let out = "";
// live reports take their program from the build
beforeAll(() => void builtFile("live.json"));
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gramwright-watch-"));
  book = join(folder, "book");
  out = join(folder, "out");
  mkdirSync(join(book, "harvests"), { recursive: true });
  writeFileSync(join(book, "harvests", "a.csv"), harvestSheet());
  writeFileSync(join(book, "costs.csv"), costSheet(46));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const later = (milliseconds: number) => new Promise((done) => setTimeout(done, milliseconds));

/** Starts the watch; `next` waits for what it says next. */
function watching(path = book, into = out, pace = usual) {
  const said: string[] = [];
  let heard = 0;
  const ending = new AbortController();
  const ended = keepReport(path, { out: into }, { say: (text) => void said.push(text), signal: ending.signal, pace });
  return {
    said,
    async next(): Promise<string> {
      for (let tries = 0; said.length <= heard; tries++) {
        if (tries > 600) throw new Error(`the watch said nothing more after: ${said.at(-1)}`);
        await later(50);
      }
      return said[heard++]!;
    },
    async end(): Promise<void> {
      ending.abort();
      await ended;
    },
  };
}

test("a saved price, a dropped sheet, a renamed and a deleted one each write the report again and say what changed", async () => {
  // long enough for the second piece of a sheet to come even on a busy machine
  const watch = watching(book, out, { ...usual, settle: 1200 });
  expect(await watch.next()).toMatch(/book-report\.html \(16 trays\)\nbook: 16 trays/);
  expect(readdirSync(out).sort()).toEqual(["book-answers.json", "book-log.csv", "book-report.html"]);
  writeFileSync(join(book, "costs.csv"), costSheet(52));
  expect(await watch.next()).toMatch(/Changed in the sheets:\n {2}filter bag: pack price 46 → 52\nAnswers that moved:/);
  // a sheet that comes in two pieces is read once it is whole
  const rows = harvestSheet(20).split("\n");
  writeFileSync(join(book, "harvests", "b.csv"), `${rows[0]}\n${rows[17]!.slice(0, 9)}`);
  await later(80);
  appendFileSync(join(book, "harvests", "b.csv"), `${rows[17]!.slice(9)}\n${rows[18]}\n`);
  expect(await watch.next()).toMatch(/new trays T017, T018\n/);
  renameSync(join(book, "harvests", "b.csv"), join(book, "harvests", "c.csv"));
  expect(await watch.next()).not.toMatch(/Changed in the sheets/);
  rmSync(join(book, "harvests", "c.csv"));
  expect(await watch.next()).toMatch(/trays no longer there: T017, T018\n/);
  await watch.end();
  expect(watch.said).toHaveLength(5);
});

test("lock files and hidden files start nothing; what an earlier run left in the book is not read", async () => {
  writeFileSync(join(book, "old-log.csv"), issuesCsv([]));
  const watch = watching();
  expect(await watch.next()).toMatch(/\(16 trays\)/);
  writeFileSync(join(book, "harvests", "~$a.xlsx"), "lock");
  writeFileSync(join(book, "harvests", ".~lock.a.csv#"), "lock");
  writeFileSync(join(book, ".hidden"), "x");
  await later(1500);
  expect(watch.said).toHaveLength(1);
  writeFileSync(join(book, "costs.csv"), costSheet(47));
  expect(await watch.next()).toMatch(/46 → 47/);
  await watch.end();
});

test("a report that would go into its book, or onto a device, is refused before anything is watched", async () => {
  const start = (path: string, into: string) =>
    keepReport(path, { out: into }, { say: () => {}, signal: new AbortController().signal, pace: usual });
  await expect(start(book, join(book, "reports"))).rejects.toThrow(/inside the book.*Nothing was written/);
  await expect(start(book, "/dev/reports")).rejects.toThrow(/belongs to the system/);
  await expect(start("/dev/zero", out)).rejects.toThrow(/belongs to the system/);
  await expect(start(join(folder, "nowhere"), out)).rejects.toThrow(/there is no such file or folder/);
  expect(readdirSync(book).sort()).toEqual(["costs.csv", "harvests"]);
});

test("trouble is one line and the watch goes on", async () => {
  const watch = watching();
  await watch.next();
  writeFileSync(join(book, "harvests", "a.csv"), "tray_id,inoculum_ml,dry_g\n");
  const trouble = await watch.next();
  expect(trouble.split("\n")).toHaveLength(1);
  expect(trouble).toMatch(/no trays|no rows/);
  renameSync(book, `${book}-away`);
  expect(await watch.next()).toMatch(/^[^\n]*there is no such file or folder[^\n]*$/);
  writeFileSync(join(`${book}-away`, "harvests", "a.csv"), harvestSheet(18));
  renameSync(`${book}-away`, book);
  expect(await watch.next()).toMatch(/new trays T017, T018\n/);
  await watch.end();
});

test("a single sheet can be watched; nothing at the path fails at once", async () => {
  const watch = watching(join(book, "harvests", "a.csv"));
  expect(await watch.next()).toMatch(/a-report\.html \(16 trays\)/);
  writeFileSync(join(book, "harvests", "a.csv"), harvestSheet(17));
  expect(await watch.next()).toMatch(/new tray T017\n/);
  await watch.end();
  await expect(watching(join(folder, "nowhere")).end()).rejects.toThrow(PlainFailure);
});

test.each(["SIGINT", "SIGTERM"] as const)("%s ends it at once with exit 0, whatever it is doing", async (signal) => {
  // sheets that are linked, and links in a circle
  renameSync(join(book, "harvests", "a.csv"), join(book, "a.csv"));
  symlinkSync(join("..", "a.csv"), join(book, "harvests", "linked.csv"));
  symlinkSync("..", join(book, "harvests", "round"));
  const child = spawn(process.execPath, [builtFile("gramwright.js"), "watch", book, "--out", out]);
  let printed = "";
  const began = performance.now();
  let killedAt = 0;
  const kill = (): void => {
    if (killedAt > 0) return;
    killedAt = performance.now();
    child.kill(signal);
  };
  child.stdout.on("data", (text) => {
    printed += text;
    // one of them in the middle of its first report, the other at rest after it
    if (signal === "SIGTERM" && printed.includes("Watching")) setTimeout(kill, 300);
    if (printed.includes("book-report.html")) kill();
  });
  const code = await new Promise((done) => child.on("exit", done));
  // at once by this machine's own measure: sooner than a report takes, and the one under way is not waited for
  if (signal === "SIGINT") expect(performance.now() - killedAt).toBeLessThan(killedAt - began);
  expect(existsSync(join(out, "book-report.html"))).toBe(signal === "SIGINT");
  expect(printed).toMatch(/^Watching .*Ctrl-C ends it\.\n[\s\S]*Stopped\. The last report stays where it is\.\n$/);
  expect(code).toBe(0);
});

test.each(["before it has begun", "while it works"])(
  "a watch ends by itself where the process that guards it is gone %s",
  async (when) => {
    const args = [builtFile("gramwright.js"), "watch", book, "--out", out];
    const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "inherit", "ipc"] });
    onTestFinished(() => void child.kill());
    const exit = new Promise((done) => child.on("exit", done));
    if (when === "while it works") child.stdout!.once("data", () => child.disconnect());
    else child.disconnect();
    expect(await exit).toBe(0);
  },
);
