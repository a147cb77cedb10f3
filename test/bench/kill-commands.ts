import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { writeOutputs } from "../../src/cli/output/output-set.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { contents, printAttack } from "./attacks.ts";

const program = "dist/gramwright.js";
const preloaded = "./test/bench/kill-at-step.cjs";

/** Commands that write, each from a book into a folder. */
const commands: Record<string, (book: string, out: string) => string[]> = {
  report: (book, out) => ["report", book, "--out", out],
  prices: (book, out) => ["prices", book, "--out", join(out, "prices.csv")],
  plan: (book, out) => ["plan", book, "--anyway", "--out", out],
  check: (book, out) => ["check", book, "--log", join(out, "log.csv"), "--fixed", join(out, "cleaned.csv")],
  due: (book, out) => ["due", book, "--ics", join(out, "due.ics"), "--week", join(out, "week.html")],
  page: (_, out) => ["page", join(out, "page.html")],
  new: (_, out) => ["new", join(out, "begun")],
};

/** files of a book that was just begun */
const bookSize = 6;

/** A folder for the next run: half of the new books go into an empty folder that is there. */
function makeReady(name: string, out: string, tried: number): void {
  if (name !== "new") return;
  rmSync(join(out, "begun"), { recursive: true, force: true });
  if (tried % 4 > 1) mkdirSync(join(out, "begun"));
}

/** Runs the program and kills it at a moment. @returns the milliseconds it ran where it ended before, undefined where it was killed */
const killedAfter = (args: ReadonlyArray<string>, milliseconds: number): Promise<number | undefined> =>
  new Promise((resolve) => {
    const start = performance.now();
    const child = spawn(process.execPath, [program, ...args], { stdio: "ignore" });
    const timer = setTimeout(() => child.kill("SIGKILL"), milliseconds);
    child.on("exit", (_, signal) => {
      clearTimeout(timer);
      resolve(signal === "SIGKILL" ? undefined : performance.now() - start);
    });
  });

const run = (args: ReadonlyArray<string>): number | null =>
  spawnSync(process.execPath, [program, ...args], { stdio: "ignore" }).status;

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
type Found = { kills: number; torn: number; mixed: number; "next run fails": number; "left behind": number };

/** Looks at what is there after a kill and after the next run has begun: every file whole, all of one set. */
function look(out: string, sets: ReadonlyArray<Map<string, string>>, found: Found): void {
  const visible = (): [string, string][] => [...contents(out)].filter(([name]) => !isHidden(name));
  const whole = ([name, text]: [string, string]): boolean => sets.some((set) => textIn(set, name) === text);
  found.torn += visible().filter((file) => !whole(file)).length;
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
  if (existsSync(begun) && ![0, bookSize].includes(contents(begun).size)) found.mixed++;
  const numberOf = (name: string): string => /-(\d+)\.\w+$/.exec(name)?.[1] ?? "";
  const files = visible();
  for (const number of new Set(files.map(([name]) => numberOf(name)))) {
    const ofOne = sets.some((set) =>
      files.every(([name, text]) => numberOf(name) !== number || textIn(set, name) === text),
    );
    if (!ofOne) found.mixed++;
  }
}

/** A command's own output of each book, and a folder that holds the first. */
function prepare(folder: string, name: string, books: readonly [string, string]) {
  const argsOf = commands[name]!;
  let took = 0;
  const sets = books.map((book, index) => {
    const alone = join(folder, `${name}-${index}`);
    mkdirSync(alone);
    const start = performance.now();
    run(argsOf(book, alone));
    took = performance.now() - start;
    return contents(alone);
  });
  const out = join(folder, `kill-${name}`);
  mkdirSync(out);
  run(argsOf(books[0], out));
  const found: Found = { kills: 0, torn: 0, mixed: 0, "next run fails": 0, "left behind": 0 };
  return { argsOf, sets, out, found, took };
}

const leftBehind = (out: string): number => readdirSync(out).filter((file) => file.startsWith(".")).length;

/**
 * Kills commands that write, onto the set of another book: what is there afterwards must be whole, old or new, and the next
 * run must work. First before every single step that changes the disk, then at random moments of the run.
 * @param kills at random moments that really hit, for each command
 * @param only these commands; @param every 2 takes every second step only
 */
export async function killCommands(
  folder: string,
  kills: number,
  only: ReadonlyArray<string> = Object.keys(commands),
  every = 1,
): Promise<Found[]> {
  const random = seededRandom(5);
  const books = twoBooks(folder);
  const before = JSON.stringify(books.map((book) => [...contents(book)]));
  const all: Found[] = [];
  for (const name of only) {
    const { argsOf, sets, out, found, took } = prepare(folder, name, books);
    // a book goes into a folder that is not there, and into one that is
    for (const round of name === "new" ? [0, 2] : [0]) {
      for (let step = 1; ; step += every) {
        makeReady(name, out, round);
        if (runToStep(argsOf(books[step % 2]!, out), step) === null) break;
        found.kills++;
        look(out, sets, found);
      }
    }
    if (found.kills === 0) throw new Error(`killCommands: ${name} wrote nothing`);
    found["left behind"] = leftBehind(out);
    printAttack(`kill -9 of ${name} before each step`, found);
    all.push({ ...found });
    if (kills === 0) continue;
    const atRandom: Found = { kills: 0, torn: 0, mixed: 0, "next run fails": 0, "left behind": 0 };
    let whole = took;
    for (let tried = 0; atRandom.kills < kills && tried < 4 * kills; tried++) {
      // half of the moments anywhere, half where the files are written
      const share = tried % 2 === 0 ? random.uniform() : 0.7 + 0.35 * random.uniform();
      makeReady(name, out, tried);
      const ended = await killedAfter(argsOf(books[tried % 2]!, out), whole * share);
      if (ended === undefined) atRandom.kills++;
      else whole = 0.7 * whole + 0.3 * ended;
      look(out, sets, atRandom);
    }
    atRandom["left behind"] = leftBehind(out);
    printAttack(`kill -9 of ${name} at random moments`, atRandom);
    all.push(atRandom);
  }
  const after = JSON.stringify(books.map((book) => [...contents(book)]));
  printAttack("originals after all of it", { changed: after === before ? 0 : 1 });
  return all;
}
