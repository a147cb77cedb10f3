import { spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { FaultLine } from "./mutants-runner.ts";

interface Place {
  line: number;
  column: number;
}

/** A small fault: a piece of source and what stands there instead. Lines and columns count from 0. */
interface Fault {
  id: string;
  fileName: string;
  mutatorName: string;
  location: { start: Place; end: Place };
  replacement: string;
  status?: string;
}

interface Instrumenter {
  instrument(
    files: ReadonlyArray<{ name: string; mutate: boolean | Fault["location"][]; content: string }>,
    options: { plugins: null; excludedMutations: string[]; ignorers: [] },
  ): Promise<{ files: { name: string; content: string }[]; mutants: Fault[] }>;
}

/** The rooms that decide what a grower is told, by part of the bench, and the rooms of tests that are asked first. */
const parts = {
  cleaning: { rooms: ["src/cleaning"], tests: ["cleaning"] },
  statistics: { rooms: ["src/statistics"], tests: ["statistics"] },
  money: { rooms: ["src/costing", "src/design"], tests: ["costing", "design"] },
  comparison: { rooms: ["analyses/comparison"], tests: ["analyses"] },
};
/**
 * The other rooms of tests that run the code itself, asked about what is left: not those of the built program, nor those of
 * the documented examples, which load modules inside a test, so that what runs on loading would look like what a test met.
 */
const others = [
  "csv",
  "analyses",
  "measures",
  "decisions",
  "costing",
  "design",
  "planning",
  "engine",
  "records",
  "data-samples",
  "layouts",
  "reports",
];
const leastShare = 0.05; // of the sample, for each room
const options = { plugins: null, ignorers: [] as [], excludedMutations: ["StringLiteral"] }; // reports show the words
const instrumenter = "@stryker-mutator/instrumenter@9.6.1";

/** Installs what makes the faults into a folder of its own. */
async function installInstrumenter(folder: string): Promise<Instrumenter> {
  mkdirSync(join(folder, "node_modules"), { recursive: true });
  const asks = createRequire(join(folder, "node_modules", "x.js"));
  if (!existsSync(join(folder, "node_modules", "@stryker-mutator", "instrumenter"))) {
    const how = ["install", "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", folder];
    const { status } = spawnSync("npm", [...how, instrumenter], { stdio: "inherit" });
    if (status !== 0) throw new Error(`npm could not install ${instrumenter}`);
  }
  const { Instrumenter } = (await import(pathToFileURL(asks.resolve("@stryker-mutator/instrumenter")).href)) as {
    Instrumenter: new (log: Record<string, unknown>) => Instrumenter;
  };
  return new Instrumenter({ debug() {}, info() {}, warn() {}, isDebugEnabled: () => false });
}

/** The files under version control, as they stand, with this project's packages. */
function copyProject(to: string): void {
  rmSync(to, { recursive: true, force: true });
  mkdirSync(to, { recursive: true });
  const { stdout } = spawnSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"]);
  for (const file of stdout.toString().split("\0")) if (file && existsSync(file)) cpSync(file, join(to, file));
  symlinkSync(realpathSync("node_modules"), join(to, "node_modules"));
}

/** The source files of a room. */
const filesOf = (room: string): string[] =>
  readdirSync(room, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map(({ parentPath, name }) => join(parentPath, name))
    .sort();

const same = (a: Fault, b: Fault): boolean =>
  a.fileName === b.fileName &&
  a.mutatorName === b.mutatorName &&
  a.replacement === b.replacement &&
  JSON.stringify(a.location) === JSON.stringify(b.location);

/** The faults that can be made in a room, by the line they begin on. */
async function faultsByLine(by: Instrumenter, room: string): Promise<Fault[][]> {
  const lines = new Map<string, Fault[]>();
  for (const name of filesOf(room)) {
    const { mutants } = await by.instrument([{ name, mutate: true, content: readFileSync(name, "utf8") }], options);
    for (const fault of mutants) {
      if (fault.status === "Ignored") continue;
      const line = `${name}:${fault.location.start.line}`;
      lines.set(line, [...(lines.get(line) ?? []), fault]);
    }
  }
  return [...lines.values()];
}

/** Draws a line at random, then one of its faults, until there are so many different ones. */
function drawFaults(lines: ReadonlyArray<ReadonlyArray<Fault>>, count: number, random: SeededRandom): Fault[] {
  const drawn = new Set<Fault>();
  while (drawn.size < count) {
    const line = lines[random.integer(lines.length)]!;
    drawn.add(line[random.integer(line.length)]!);
  }
  return [...drawn];
}

/** Puts switches for the faults into the sources of the copy. @returns the faults with the numbers of their switches */
async function switchIn(by: Instrumenter, copy: string, faults: ReadonlyArray<Fault>): Promise<Fault[]> {
  const names = [...new Set(faults.map(({ fileName }) => fileName))];
  const sources = names.map((name) => ({
    name,
    content: readFileSync(name, "utf8"),
    mutate: faults.filter(({ fileName }) => fileName === name).map(({ location }) => location),
  }));
  const { files, mutants } = await by.instrument(sources, options);
  for (const { name, content } of files) writeFileSync(join(copy, name), content);
  return faults.map((fault) => ({ ...fault, id: mutants.find((one) => same(one, fault))!.id }));
}

/** Runs tests in the copy; gives what they told of the faults, and whether all passed. */
function runTests(copy: string, args: string[], env: Record<string, string>): { told: FaultLine[]; passed: boolean } {
  const log = join(copy, "faults.jsonl");
  writeFileSync(log, "");
  const vitest = join("node_modules", "vitest", "vitest.mjs");
  const config = join("test", "bench", "mutants-vitest.config.ts");
  const { status } = spawnSync(process.execPath, [vitest, ...args, "--run", "--config", config], {
    cwd: copy,
    env: { ...process.env, ...env, GRAMWRIGHT_FAULT_LOG: log },
    stdio: "ignore",
  });
  const lines = readFileSync(log, "utf8").split("\n").filter(Boolean);
  return { told: lines.map((line) => JSON.parse(line) as FaultLine), passed: status === 0 };
}

type Fate = "noticed" | "noticed, it did not end" | "not noticed" | "reached by no test";

/** What tests told of the faults that are in the copy: the quick ones first, then the slow ones of those still waiting. */
function toldOf(copy: string, ownRooms: string[], faults: ReadonlyArray<Fault>): Map<string, FaultLine[]> {
  const told = new Map<string, FaultLine[]>(faults.map(({ id }) => [id, []]));
  const noticed = new Set<string>();
  const tell = (rooms: string, args: string[], env: Record<string, string>): void => {
    const ids = [...told.keys()].filter((id) => !noticed.has(id)).join(",");
    if (ids === "") return;
    const run = runTests(copy, args, { GRAMWRIGHT_TEST_ROOMS: rooms, GRAMWRIGHT_FAULTS: ids, ...env });
    if (!run.passed) console.log(`tests of ${rooms} failed although no fault was on`);
    for (const line of run.told) {
      if ("spoiled" in line) console.log(`left failing by a fault: ${line.spoiled}`);
      else told.get(line.id)?.push(line);
      if ("noticedBy" in line) noticed.add(line.id);
    }
  };
  for (const rooms of [ownRooms, others.filter((room) => !ownRooms.includes(room))]) {
    tell(rooms.join(), [], {});
    const waiting = [...told].flatMap(([id, lines]) => (noticed.has(id) ? [] : lines));
    const slow = new Set(waiting.flatMap((line) => ("leftFor" in line ? [line.leftFor] : [])));
    const here = [...slow].filter((file) => rooms.some((room) => file.startsWith(`test/${room}/`)));
    if (here.length > 0) tell(rooms.join(), here, { GRAMWRIGHT_FAULT_SLOW: "1" });
  }
  return told;
}

/** What became of each fault. One that is met as modules load has a run of its own, in which it is on from the start. */
function fatesOf(copy: string, rooms: string[], faults: ReadonlyArray<Fault>): Map<Fault, Fate> {
  const told = toldOf(copy, rooms, faults);
  const fates = new Map<Fault, Fate>();
  for (const fault of faults) {
    const about = told.get(fault.id)!;
    const noticed = about.find((line) => "noticedBy" in line);
    if (noticed !== undefined) fates.set(fault, noticed.endless ? "noticed, it did not end" : "noticed");
    else if (about.length === 0) fates.set(fault, "reached by no test");
    else if (!about.some((line) => "onLoading" in line)) fates.set(fault, "not noticed");
    else {
      const env = { GRAMWRIGHT_TEST_ROOMS: [...new Set([...rooms, ...others])].join(), GRAMWRIGHT_FAULT: fault.id };
      const { passed } = runTests(copy, ["related", fault.fileName, "--bail", "1"], env);
      fates.set(fault, passed ? "not noticed" : "noticed");
    }
  }
  return fates;
}

/** The text of a place. */
function textAt({ fileName, location: { start, end } }: Fault): string {
  const lines = readFileSync(fileName, "utf8")
    .split("\n")
    .slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column);
  lines[0] = lines[0]!.slice(start.column);
  return lines.join("\n").replaceAll("\n", "\n      ");
}

function report(room: string, fates: ReadonlyMap<Fault, Fate>): void {
  const counts = new Map<Fate, number>();
  for (const [{ fileName }, fate] of fates)
    if (fileName.startsWith(`${room}/`)) counts.set(fate, (counts.get(fate) ?? 0) + 1);
  console.log(`${room}: ${[...counts].map(([fate, count]) => `${count} ${fate}`).join("; ")}`);
  for (const [fault, fate] of fates) {
    const { fileName, location, mutatorName, replacement } = fault;
    if (!fileName.startsWith(`${room}/`) || fate.startsWith("noticed")) continue;
    console.log(`  ${fileName}:${location.start.line + 1}:${location.start.column + 1} ${mutatorName}, ${fate}`);
    console.log(`    - ${textAt(fault)}\n    + ${replacement}`);
  }
}

/**
 * Makes small faults in the rooms that decide what a grower is told (by StrykerJS, https://stryker-mutator.io, without its
 * own runner: one run of the tests tries every fault on each test that comes by it) and says which no test notices. A test
 * that says what is right is missing there, the code is not needed, or the fault changes nothing.
 * @param count how many are drawn for all parts; each room has its share by lines that can hold one, 5 % at least
 */
export async function benchMutants(
  part: keyof typeof parts,
  count = Number(process.env.GRAMWRIGHT_MUTANTS ?? 300),
  seed = Number(process.env.GRAMWRIGHT_SEED ?? 11),
): Promise<void> {
  const folder = join(tmpdir(), "gramwright-mutants");
  const copy = join(folder, part);
  const by = await installInstrumenter(folder);
  const lines = new Map<string, Fault[][]>();
  for (const room of Object.values(parts).flatMap(({ rooms }) => rooms)) lines.set(room, await faultsByLine(by, room));
  const all = [...lines.values()].reduce((sum, { length }) => sum + length, 0);
  const random = seededRandom(seed);
  const { rooms, tests } = parts[part];
  const drawn = rooms.flatMap((room) => {
    const own = lines.get(room)!;
    return drawFaults(own, Math.ceil(count * Math.max(leastShare, own.length / all)), random);
  });
  copyProject(copy);
  const fates = fatesOf(copy, tests, await switchIn(by, copy, drawn));
  for (const room of rooms) report(room, fates);
}
