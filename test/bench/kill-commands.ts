import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { writeOutputs } from "../../src/cli/output/output-set.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { type AttackTable, changedIn, contents } from "./attacks.ts";

const program = "dist/gramwright.js";
const preloaded = "./test/bench/kill-at-step.cjs";

/** Commands that write, each from a book into a folder. */
export const writingCommands: Record<string, (book: string, out: string) => string[]> = {
  report: (book, out) => ["report", book, "--out", out],
  prices: (book, out) => ["prices", book, "--out", join(out, "prices.csv")],
  plan: (book, out) => ["plan", book, "--anyway", "--out", out],
  check: (book, out) => ["check", book, "--log", join(out, "log.csv"), "--fixed", join(out, "cleaned.csv")],
  due: (book, out) => ["due", book, "--ics", join(out, "due.ics"), "--week", join(out, "week.html")],
  page: (_, out) => ["page", join(out, "page.html")],
  new: (_, out) => ["new", join(out, "begun")],
  watch: (book, out) => ["watch", book, "--out", out],
};

/** files of a book that was just begun */
const bookSize = 6;

/** A folder for the next run: half of the new books go into an empty folder that is there. */
function makeReady(name: string, out: string, tried: number): void {
  if (name !== "new") return;
  rmSync(join(out, "begun"), { recursive: true, force: true });
  if (tried % 4 > 1) mkdirSync(join(out, "begun"));
}

const isEnded = (child: ChildProcess): boolean => child.exitCode !== null || child.signalCode !== null;

/** Whether any process of a group is still there. */
function isGroupThere(leader: number): boolean {
  try {
    process.kill(-leader, 0);
    return true;
  } catch {
    return false;
  }
}

/**
 * Runs the program and kills it at a moment: it alone or, every second time, with all processes it began.
 * @returns the milliseconds it ran where it ended before, undefined where it was killed; and whether a process of it stayed
 */
async function killedAfter(args: ReadonlyArray<string>, milliseconds: number, withAll: boolean) {
  const start = performance.now();
  const child = spawn(process.execPath, [program, ...args], { stdio: "ignore", detached: true });
  const exit = new Promise<void>((resolve) => child.on("exit", () => resolve()));
  await Promise.race([exit, pause(milliseconds)]);
  const took = isEnded(child) ? performance.now() - start : undefined;
  if (took === undefined) {
    if (withAll) process.kill(-child.pid!, "SIGKILL");
    else child.kill("SIGKILL");
    await exit;
  }
  // what is left of it ends by itself once it hears of it, which on a busy machine can take long
  const until = performance.now() + 180_000;
  while (isGroupThere(child.pid!) && performance.now() < until) await pause(20);
  const isLeft = isGroupThere(child.pid!);
  if (isLeft) process.kill(-child.pid!, "SIGKILL");
  return { took: child.signalCode === "SIGKILL" ? undefined : took, isLeft };
}

/** Runs the program to its end. A watch, which has none, is ended once its first report is there. */
const run = (args: ReadonlyArray<string>): number | null =>
  spawnSync(process.execPath, [program, ...(args[0] === "watch" ? ["report", ...args.slice(1)] : args)], {
    stdio: "ignore",
  }).status;

/** Runs the program, killed just before its n-th step that changes what lies on the disk. @returns null where it has fewer */
function runToStep(args: ReadonlyArray<string>, step: number): string | null {
  const preload = ["--require", preloaded, program];
  return spawnSync(process.execPath, [...preload, ...args], {
    stdio: "ignore",
    env: { ...process.env, KILL_AT: String(step) },
  }).signal;
}

/** Two books of one name whose every output differs: the demo, and the same with other weights and prices, some trays growing. */
function twoBooks(folder: string): [string, string] {
  const books = ["first", "second"].map((name) => join(folder, name, "book")) as [string, string];
  for (const [index, book] of books.entries()) {
    cpSync("data-samples/demo-book", book, { recursive: true });
    for (const sheet of ["costs.csv", "harvests/2026-spring.csv"]) {
      const text = readFileSync(join(book, sheet), "utf8");
      const changed = sheet === "costs.csv" ? text.replace(/,31,25,/, ",33,25,") : text.replace(/,261,/, ",262,");
      if (changed === text) throw new Error(`twoBooks: ${sheet} has not what is changed in it`);
      if (index === 1) writeFileSync(join(book, sheet), changed);
    }
  }
  return books;
}

const isHidden = (name: string): boolean => name.split("/").some((part) => part.startsWith("."));
/** A sheet gets a number where its name is taken: "plan-2.csv" is another "plan.csv". */
const textIn = (set: ReadonlyMap<string, string>, name: string): string | undefined =>
  set.get(name) ?? set.get(name.replace(/-\d+(\.\w+)$/, "$1"));

/** What one command left after kills. */
interface Found extends Record<string, number> {
  "torn files": number;
  "mixed sets": number;
  "next run fails": number;
  "left behind": number;
  "still running": number;
  "originals changed": number;
}

const nothingFound = (): Found => ({
  ...{ "torn files": 0, "mixed sets": 0, "next run fails": 0 },
  ...{ "left behind": 0, "still running": 0, "originals changed": 0 },
});

/** Looks at what is there after a kill and after the next run has begun: every file whole, all of one set. */
function look(out: string, sets: ReadonlyArray<Map<string, string>>, found: Found): void {
  const visible = (): [string, string][] => [...contents(out)].filter(([name]) => !isHidden(name));
  const whole = ([name, text]: [string, string]): boolean => sets.some((set) => textIn(set, name) === text);
  found["torn files"] += visible().filter((file) => !whole(file)).length;
  // whatever is written into the folder next first finishes what a run had begun
  const begun = join(out, "begun");
  for (const folder of existsSync(begun) ? [out, begun] : [out]) {
    try {
      writeOutputs([{ path: join(folder, "any.ics"), text: "", kind: "calendar" }]);
    } catch (error) {
      found["next run fails"]++;
      console.log(String(error));
    }
    rmSync(join(folder, "any.ics"), { force: true });
  }
  if (existsSync(begun) && ![0, bookSize].includes(contents(begun).size)) found["mixed sets"]++;
  const numberOf = (name: string): string => /-(\d+)\.\w+$/.exec(name)?.[1] ?? "";
  const files = visible();
  for (const number of new Set(files.map(([name]) => numberOf(name)))) {
    const ofOne = sets.some((set) =>
      files.every(([name, text]) => numberOf(name) !== number || textIn(set, name) === text),
    );
    if (!ofOne) found["mixed sets"]++;
  }
  found["left behind"] = readdirSync(out).filter((file) => file.startsWith(".")).length;
}

/** A command's own output of each book, and a folder that holds the first. */
function prepare(folder: string, name: string, books: readonly [string, string]) {
  const argsOf = writingCommands[name]!;
  let took = 0;
  const sets = books.map((book, index) => {
    const alone = join(folder, `${name}-${index}`);
    mkdirSync(alone);
    const start = performance.now();
    run(argsOf(book, alone));
    took = performance.now() - start;
    return contents(alone);
  });
  if (sets.some(({ size }) => size === 0)) throw new Error(`killCommands: ${name} wrote nothing`);
  const out = join(folder, `kill-${name}`);
  mkdirSync(out);
  run(argsOf(books[0], out));
  return { name, argsOf, sets, out, books, took };
}

type Prepared = ReturnType<typeof prepare>;

/** Kills a command before every single step that changes the disk. @returns how often */
function killBeforeSteps({ name, argsOf, sets, out, books }: Prepared, every: number, found: Found): number {
  let kills = 0;
  // a book goes into a folder that is not there, and into one that is
  for (const round of name === "new" ? [0, 2] : [0]) {
    for (let step = 1; ; step += every) {
      makeReady(name, out, round);
      if (runToStep(argsOf(books[step % 2]!, out), step) === null) break;
      kills++;
      look(out, sets, found);
    }
  }
  return kills;
}

/** Kills a command at random moments. @returns how many really hit */
async function killAtRandom({ name, argsOf, sets, out, books, took }: Prepared, kills: number, found: Found) {
  const random = seededRandom(5);
  // a watch waits half a second until its sheets have settled, and does not end
  let whole = took + (name === "watch" ? 800 : 0);
  let hits = 0;
  for (let tried = 0; hits < kills && tried < 5 * kills; tried++) {
    // half of the moments anywhere, half where the files are written
    const share = tried % 2 === 0 ? random.uniform() : 0.7 + 0.35 * random.uniform();
    makeReady(name, out, tried);
    const ended = await killedAfter(argsOf(books[tried % 2]!, out), whole * share, tried % 4 > 1);
    if (ended.took === undefined) hits++;
    else whole = 0.7 * whole + 0.3 * ended.took;
    if (ended.isLeft) found["still running"]++;
    look(out, sets, found);
  }
  return hits;
}

/**
 * Kills commands that write, onto the set of another book: what is there afterwards must be whole, old or new, and the next
 * run must work. First before every single step that changes the disk, then at random moments of the run.
 * @param kills at random moments that really hit, for each command
 * @param only these commands; @param every 2 takes every second step only
 */
export async function killCommands(
  folder: string,
  table: AttackTable,
  kills: number,
  only: ReadonlyArray<string> = Object.keys(writingCommands),
  every = 1,
): Promise<{ kills: number; found: Found }[]> {
  const books = twoBooks(folder);
  const all: { kills: number; found: Found }[] = [];
  const attack = async (what: string, kill: (found: Found) => number | Promise<number>): Promise<void> => {
    const found = nothingFound();
    let hits = 0;
    found["originals changed"] = await changedIn(books, async () => {
      hits = await kill(found);
    });
    table.add(what, hits, found);
    all.push({ kills: hits, found });
  };
  for (const name of only) {
    const prepared = prepare(folder, name, books);
    // a watch writes what a report does, in a second process that cannot be stopped at a step
    if (name !== "watch")
      await attack(`kill -9 of ${name}, before each step`, (found) => killBeforeSteps(prepared, every, found));
    if (kills > 0)
      await attack(`kill -9 of ${name}, at random moments`, (found) => killAtRandom(prepared, kills, found));
  }
  return all;
}
