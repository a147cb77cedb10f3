import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type AttackTable, changedIn, type Faults } from "./attacks.ts";
import { commandLine } from "./command-line.ts";

const demo = "data-samples/demo-book";

/** Every place of a command line where a path is read, the rest of it as it should be. */
const inputs: Record<string, (place: string) => string[]> = {
  report: (place) => ["report", place],
  check: (place) => ["check", place],
  prices: (place) => ["prices", place],
  plan: (place) => ["plan", place],
  "plan --order": (place) => ["plan", place, "--order", "1 kg dried"],
  due: (place) => ["due", place],
  watch: (place) => ["watch", place],
  "new --from": (place) => ["new", "never-made", "--from", place],
};

/** Every place of a command line where a path is written to. */
const outputs: Record<string, (place: string) => string[]> = {
  "report --out": (place) => ["report", demo, "--out", place],
  "check --fixed": (place) => ["check", demo, "--fixed", place],
  "check --log": (place) => ["check", demo, "--log", place],
  "check --columns": (place) => ["check", demo, "--columns", place],
  "prices --out": (place) => ["prices", demo, "--out", place],
  "plan --out": (place) => ["plan", demo, "--anyway", "--out", place],
  "due --ics": (place) => ["due", demo, "--ics", place],
  "due --week": (place) => ["due", demo, "--week", place],
  "watch --out": (place) => ["watch", demo, "--out", place],
  page: (place) => ["page", place],
  new: (place) => ["new", place],
};

/** What is no file: pipes, devices, files of the system, and links to them. */
function strangeFiles(folder: string): string[] {
  const strange = join(folder, "strange");
  mkdirSync(strange);
  const path = (name: string): string => join(strange, name);
  for (const pipe of ["pipe.csv", "pipe.html", "pipe"]) spawnSync("mkfifo", [path(pipe)]);
  symlinkSync("/dev/zero", path("zero.csv"));
  symlinkSync("/dev/zero", path("zero.html"));
  symlinkSync(path("pipe"), path("to-pipe.csv"));
  symlinkSync("/proc/self", path("to-proc"));
  symlinkSync(path("circle"), path("circle"));
  const there = ["pipe.csv", "pipe.html", "pipe", "zero.csv", "zero.html", "to-pipe.csv", "to-proc", "circle"].map(
    path,
  );
  return [
    ...there,
    "/dev/zero",
    "/dev/stdin",
    "/proc/self/environ",
    "/proc/x",
    "/proc/x.html",
    "/proc/self/fd/0",
    "/sys",
  ];
}

/** Runs each command line on each strange place: refused at once, in one line, with nothing written. */
function refused(lines: Record<string, (place: string) => string[]>, places: ReadonlyArray<string>): [number, Faults] {
  const found = { stuck: 0, "not refused": 0, "not in one line": 0, "over 5 s": 0 };
  let tried = 0;
  for (const [name, line] of Object.entries(lines)) {
    for (const place of places) {
      tried++;
      const { status, err, seconds } = commandLine(line(place));
      if (status === null) found.stuck++;
      else if (status !== 2) found["not refused"]++;
      if (!/^gramwright: [^\n]+\n(?:\n?Run with --help[^\n]*\n)?$/.test(err)) found["not in one line"]++;
      if (seconds > 5) found["over 5 s"]++;
      if (status !== 2) console.log(`${name} ${place}: exit ${status}: ${err.slice(0, 200)}`);
    }
  }
  return [tried, found];
}

/** Books with links, pipes and devices in them: read without them, with each in the log. */
function strangeBook(folder: string): [number, Faults] {
  const book = join(folder, "round");
  cpSync(demo, book, { recursive: true });
  const links = { up: "..", everything: "/", "endless.csv": "/dev/zero", round: ".", "own.csv": "2026-spring.csv" };
  for (const [name, target] of Object.entries(links)) symlinkSync(target, join(book, "harvests", name));
  spawnSync("mkfifo", [join(book, "harvests", "pipe.csv")]);
  const { status, out, seconds } = commandLine(["check", book, "--all"]);
  const plain = commandLine(["check", demo, "--json"]);
  const odd = commandLine(["check", book, "--json"]);
  const trays = (text: string): number => JSON.parse(text).trays;
  const named = [...Object.keys(links), "pipe.csv"].filter((name) => !out.includes(`harvests/${name}`));
  const found = {
    stuck: status === null ? 1 : 0,
    "over 5 s": seconds > 5 ? 1 : 0,
    "not named in the log": named.length,
    "trays other than without them": Math.abs(trays(plain.out) - trays(odd.out)),
  };
  return [named.length + Object.keys(links).length + 1 - named.length, found];
}

/** Everything that is no file, as input and output of every command and option, and inside a book. */
export async function strangePlaces(folder: string, table: AttackTable): Promise<void> {
  const places = strangeFiles(folder);
  const victim = join(folder, "strange", "victim.csv");
  writeFileSync(victim, "keep,me\n1,2\n");
  symlinkSync(victim, join(folder, "strange", "link.csv"));
  for (const [what, lines] of [
    ["read", inputs],
    ["written to", outputs],
  ] as const) {
    let result: [number, Faults] = [0, {}];
    const changed = await changedIn([demo, join(folder, "strange")], () => {
      const more = what === "written to" ? [join(folder, "strange", "link.csv")] : [];
      result = refused(lines, [...places, ...more]);
    });
    table.add(`pipes, devices, links, system files: ${what}`, result[0], { ...result[1], "files changed": changed });
  }
  table.add("links and pipes inside a book", ...strangeBook(folder));
}
