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
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";

interface Place {
  line: number;
  column: number;
}
interface Mutant {
  id: string;
  mutatorName: string;
  location: { start: Place; end: Place };
  replacement?: string;
  status: string;
  static?: boolean;
}
interface Instrumenter {
  instrument(
    files: ReadonlyArray<{ name: string; mutate: boolean; content: string }>,
    options: { plugins: null; excludedMutations: string[]; ignorers: [] },
  ): Promise<{ mutants: Mutant[] }>;
}

/** The rooms that decide what a grower is told, and the tests that are asked about them. */
const runs = [
  { rooms: ["src/cleaning"], tests: ["cleaning"] },
  { rooms: ["src/statistics"], tests: ["statistics"] },
  {
    rooms: ["src/costing", "src/design", "analyses/comparison"],
    tests: ["costing", "design", "decisions", "analyses"],
  },
];
const leastShare = 0.05; // of the sample, for each room
const longestRange = 4; // lines
const left = { excludedMutations: ["StringLiteral"] }; // texts: their words are looked at in reports, not tested one by one

/** Installs the mutation tester into a folder of its own, beside links to this project's vitest and compiler. */
function installTester(folder: string): string {
  const packages = join(folder, "node_modules");
  const names = ["core", "instrumenter", "vitest-runner"].map((name) => `@stryker-mutator/${name}@9.6.1`);
  mkdirSync(packages, { recursive: true });
  if (!existsSync(join(packages, "@stryker-mutator", "vitest-runner"))) {
    const how = ["install", "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", "--legacy-peer-deps"];
    const { status } = spawnSync("npm", [...how, "--prefix", folder, ...names], { stdio: "inherit" });
    if (status !== 0) throw new Error(`npm could not install ${names.join(" ")}`);
    for (const own of ["vitest", "typescript"]) symlinkSync(realpathSync(`node_modules/${own}`), join(packages, own));
  }
  return packages;
}

/** The files under version control, as they stand, with this project's packages. */
function copyProject(to: string): void {
  rmSync(to, { recursive: true, force: true });
  mkdirSync(to, { recursive: true });
  const { stdout } = spawnSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"]);
  for (const file of stdout.toString().split("\0")) if (file && existsSync(file)) cpSync(file, join(to, file));
  symlinkSync(realpathSync("node_modules"), join(to, "node_modules"));
}

interface SourceLines {
  file: string;
  lines: number;
  mutants: Mutant[];
}

async function mutantsOf(packages: string, room: string): Promise<SourceLines[]> {
  const place = createRequire(join(packages, "x.js")).resolve("@stryker-mutator/instrumenter");
  const { Instrumenter } = (await import(pathToFileURL(place).href)) as {
    Instrumenter: new (log: Record<string, unknown>) => Instrumenter;
  };
  const silent = { debug() {}, info() {}, warn() {}, isDebugEnabled: () => false };
  const found: SourceLines[] = [];
  for (const entry of readdirSync(room, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !entry.name.endsWith(".ts")) continue;
    const file = join(entry.parentPath, entry.name);
    const content = readFileSync(file, "utf8");
    const { mutants } = await new Instrumenter(silent).instrument([{ name: resolve(file), mutate: true, content }], {
      plugins: null,
      ignorers: [],
      ...left,
    });
    found.push({
      file,
      lines: content.split("\n").length,
      mutants: mutants.filter(({ status }) => status !== "Ignored"),
    });
  }
  return found;
}

/** Ranges of lines drawn at random, as `file:first-last`, until at least so many mutants lie wholly in one. */
function drawRanges(sources: ReadonlyArray<SourceLines>, mutants: number, random: SeededRandom): string[] {
  const lines = sources.flatMap(({ lines }, at) =>
    Array.from({ length: lines }, (_, line) => ({ at, line: line + 1 })),
  );
  const ranges: string[] = [];
  const drawn = new Set<Mutant>();
  while (drawn.size < mutants) {
    const { at, line } = lines[random.integer(lines.length)]!;
    const last = line + random.integer(longestRange);
    // the instrumenter counts lines from 0
    const within = sources[at]!.mutants.filter(
      (mutant) => mutant.location.start.line + 1 >= line && mutant.location.end.line + 1 <= last && !drawn.has(mutant),
    );
    if (within.length === 0) continue;
    ranges.push(`${sources[at]!.file}:${line}-${last}`);
    for (const mutant of within) drawn.add(mutant);
  }
  return ranges;
}

interface Found extends Mutant {
  file: string;
  was: string;
}

/** Runs the tester over some ranges in the copy; gives the mutants with what became of each. */
function runTester(
  packages: string,
  copy: string,
  ranges: ReadonlyArray<string>,
  tests: ReadonlyArray<string>,
): Found[] {
  const output = resolve(copy, "..", "mutants.json");
  rmSync(output, { force: true });
  const settings = {
    mutate: ranges,
    mutator: left,
    testRunner: "vitest",
    vitest: { configFile: "test/bench/mutants-vitest.config.ts" },
    plugins: ["@stryker-mutator/vitest-runner"],
    coverageAnalysis: "perTest",
    concurrency: 1,
    timeoutMS: 30_000,
    timeoutFactor: 4,
    dryRunTimeoutMinutes: 60,
    ignorePatterns: ["/reports/*.html"],
    reporters: ["json"],
    jsonReporter: { fileName: output },
    allowEmpty: true,
    checkers: [],
    disableTypeChecks: false,
    allowConsoleColors: false,
    logLevel: "warn",
  };
  writeFileSync(join(copy, "mutants-settings.json"), JSON.stringify(settings));
  const program = join(packages, "@stryker-mutator", "core", "bin", "stryker.js");
  const { status } = spawnSync(process.execPath, [program, "run", "mutants-settings.json"], {
    cwd: copy,
    env: { ...process.env, GRAMWRIGHT_TEST_ROOMS: tests.join(",") },
    stdio: ["ignore", "inherit", "inherit"],
  });
  if (!existsSync(output)) throw new Error(`the mutation tester ended with ${status} and left no results`);
  const { files } = JSON.parse(readFileSync(output, "utf8")) as {
    files: Record<string, { source: string; mutants: Mutant[] }>;
  };
  return Object.entries(files).flatMap(([file, { source, mutants }]) =>
    mutants
      .filter(({ status }) => status !== "Ignored")
      .map((mutant) => ({ ...mutant, file, was: textAt(source, mutant.location) })),
  );
}

/** The text of a place; lines and columns count from 1. */
function textAt(source: string, { start, end }: Mutant["location"]): string {
  const lines = source.split("\n").slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column - 1);
  lines[0] = lines[0]!.slice(start.column - 1);
  return lines.join("\n");
}

function report(name: string, found: ReadonlyArray<Found>): void {
  const counts = new Map<string, number>();
  for (const { status } of found) counts.set(status, (counts.get(status) ?? 0) + 1);
  console.log(`${name}: ${found.length} drawn; ${[...counts].map(([status, n]) => `${n} ${status}`).join(", ")}`);
  for (const { file, location, was, replacement, status, mutatorName } of found) {
    if (status === "Killed" || status === "Timeout") continue;
    console.log(`  ${status} ${file}:${location.start.line}:${location.start.column} ${mutatorName}`);
    console.log(`    - ${was.replaceAll("\n", "\n      ")}\n    + ${replacement ?? "left out"}`);
  }
}

/**
 * Makes small faults in the rooms that decide what a grower is told (StrykerJS, https://stryker-mutator.io) and counts how
 * many of them a test of the room notices. What survives is printed with its place: a test that should say what is right
 * is missing there, the code is not needed, or the two are equivalent.
 * @param mutants how many are drawn at least, by ranges of lines; each room has its share by lines, 5 % at least
 */
export async function benchMutants(
  mutants = Number(process.env.GRAMWRIGHT_MUTANTS ?? 300),
  seed = Number(process.env.GRAMWRIGHT_SEED ?? 11),
): Promise<void> {
  const folder = join(tmpdir(), "gramwright-mutants");
  const packages = installTester(folder);
  const copy = join(folder, "copy");
  copyProject(copy);
  const random = seededRandom(seed);
  const sources = new Map<string, SourceLines[]>();
  for (const room of runs.flatMap(({ rooms }) => rooms)) sources.set(room, await mutantsOf(packages, room));
  const linesOf = (room: string): number => sources.get(room)!.reduce((sum, { lines }) => sum + lines, 0);
  const allLines = [...sources.keys()].reduce((sum, room) => sum + linesOf(room), 0);
  for (const { rooms, tests } of runs) {
    const ranges = rooms.flatMap((room) =>
      drawRanges(sources.get(room)!, Math.ceil(mutants * Math.max(leastShare, linesOf(room) / allLines)), random),
    );
    const found = runTester(packages, copy, ranges, tests);
    for (const room of rooms) {
      report(
        `${room}, seed ${seed}`,
        found.filter(({ file }) => file.startsWith(`${room}/`)),
      );
    }
  }
}
