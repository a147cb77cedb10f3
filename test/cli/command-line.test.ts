import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { runReport } from "../../src/cli/report-run.ts";
import { builtFile } from "../built-file.ts";
import { runProgram } from "./run-program.ts";
import { harvestSheet } from "./small-book.ts";

const demoBook = fileURLToPath(new URL("../../data-samples/demo-book", import.meta.url));
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gramwright-cli-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

/** One clear line on the error stream, nothing on the other, and never a trace. */
function expectOneLine(run: ReturnType<typeof runProgram>, pattern: RegExp): void {
  expect(run.status).not.toBe(0);
  expect(run.out).toBe("");
  expect(run.err.trimEnd().split("\n")).toHaveLength(1);
  expect(run.err).toMatch(pattern);
  expect(run.err).not.toMatch(/^\s+at /m);
}

test("trouble is reported in one line", () => {
  expectOneLine(runProgram("report", join(folder, "nowhere")), /there is no such file or folder.*Give the folder/);
  const run = runProgram("report", demoBook, "--out", file("blocked", "x"));
  expect(run.status).toBe(2);
  expect(run.err).toMatch(/blocked is a file, not a folder. Give another place/);
});

const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 1, 2, 3]);
test.each<[string, Record<string, string | Uint8Array>, RegExp]>([
  ["empty", {}, /holds no sheets.*gramwright new/],
  ["no-harvests", { "settings.csv": "key,value\ncurrency,EUR\n" }, /no harvest sheet was found/],
  ["empty.csv", { "": "" }, /empty/],
  ["photo.csv", { "": png }, /picture|image/i],
  ["page.csv", { "": "<!doctype html><html><body>hello</body></html>" }, /HTML/i],
  ["header.csv", { "": "tray_id,inoculum_ml,dry_g\n" }, /no trays|no rows/],
])("a book that cannot be reported on: %s", async (name, files, said) => {
  const path = join(folder, name);
  if (!name.endsWith(".csv")) mkdirSync(path);
  for (const [part, content] of Object.entries(files)) writeFileSync(join(path, part), content);
  const failure = await runReport(path, join(folder, "never"), { say: () => {} }).catch((error) => error);
  expect(failure).toBeInstanceOf(PlainFailure);
  expect(failure.message).toMatch(said);
  expect(failure.message).not.toContain("\n");
});

test("wrong commands, arguments and options exit above 0 and point to the help", () => {
  const wrong = [
    ...[
      ["brew"],
      ["help", "brew"],
      ["report"],
      ["report", demoBook, "--colour"],
      ["report", demoBook, "--seed", "lots"],
    ],
    ...[
      ["report", ""],
      ["report", demoBook, "--out", "report.html"],
      ["page", "page"],
      ["plan", demoBook, "--doses", "-"],
    ],
  ];
  for (const args of wrong) {
    const run = runProgram(...args);
    // 1 is for what is wrong with the sheets
    expect(run.status, args.join(" ")).toBe(2);
    expect(run.err, args.join(" ")).toMatch(/--help/);
    expect(run.err).not.toMatch(/^\s+at /m);
  }
});

test("an option that would be passed over is refused", () => {
  expectOneLine(runProgram("plan", demoBook, "--sure", "90"), /--sure: it belongs to an order/);
  expectOneLine(
    runProgram("plan", demoBook, "--order", "1 kg dried", "--cooks", "2"),
    /--cooks: it belongs to a trial/,
  );
});

test("a setting stated on the command line that cannot be read ends the run", () => {
  const sheet = file("few.csv", harvestSheet());
  expectOneLine(runProgram("report", sheet, "--set", "nonsense=1"), /--set nonsense=1: there is no setting of this/);
  expectOneLine(runProgram("check", sheet, "--set", "shelf_places=-1"), /--set shelf_places=-1: .*out of the/);
  expectOneLine(runProgram("due", sheet, "--on", "2026-02-30"), /--on: give a date/);
  expectOneLine(runProgram("plan", sheet, "--set", "column:Nope=dry_g"), /column:Nope=dry_g: no harvest sheet has/);
});

test("help has examples and exits 0; so does the version", () => {
  const help = runProgram("--help");
  expect(help.status).toBe(0);
  expect(help.out).toMatch(/Examples:/);
  expect(runProgram("report", "--help").out).toMatch(/Example/);
  expect(runProgram("--version").out.trim()).toMatch(/^\d+\.\d+\.\d+$/);
});

test("a sheet whose columns say nothing about trays says what is missing", () => {
  const path = file("weather.csv", "city,wind,rain\nA,3,1\nB,4,2\nC,1,5\n");
  const run = runProgram("check", path);
  expect(run.out + run.err).toMatch(/tray|column/i);
});

test("check exits 1 when there are errors, 0 when there are none", () => {
  expect(runProgram("check", demoBook).status).toBe(0);
  const bad = file(
    "bad.csv",
    "tray,dose ml,dry g,fresh g,outcome\n1,5,50,20,good\n2,5,3,30,good\n3,10,-4,40,good\n4,10,4,40,good\n",
  );
  const run = runProgram("check", bad);
  expect(run.status).toBe(1);
  expect(run.out).toMatch(/row 2/);
});

test("new makes a book that check reads without an error, and never writes over anything", () => {
  const book = join(folder, "mine");
  expect(runProgram("new", book).status).toBe(0);
  expect(readdirSync(book).sort()).toEqual([
    "README.md",
    "columns-by-question.html",
    "costs.csv",
    "harvests",
    "products.csv",
    "settings.csv",
  ]);
  expect(runProgram("check", book).status).toBe(0);
  expectOneLine(runProgram("new", book), /not empty/);
});

test("report writes the same bytes twice and as committed, never touches the sheets; --json gives data", async () => {
  const sheet = join(demoBook, "harvests", "2026-spring.csv");
  const before = [readFileSync(sheet, "utf8"), statSync(sheet).mtimeMs];
  const first = runProgram("report", demoBook, "--out", join(folder, "one"), "--json");
  // whoever reads the output may have seen enough of it: that ends nothing, leaves no trace, and files are written
  const args = ["report", demoBook, "--out", join(folder, "two")];
  const program = spawn(process.execPath, [builtFile("gramwright.js"), ...args]);
  program.stdout.destroy();
  const errors = program.stderr.setEncoding("utf8").toArray();
  const [status] = (await once(program, "close")) as [number];
  expect((await errors).join("")).not.toMatch(/EPIPE|^\s+at /m);
  expect([first.status, status]).toEqual([0, 0]);
  expect([readFileSync(sheet, "utf8"), statSync(sheet).mtimeMs]).toEqual(before);
  const read = (name: string) => readFileSync(join(folder, name, "demo-book-report.html"), "utf8");
  expect(read("one")).toBe(read("two"));
  expect(read("one")).toMatch(/^<!doctype html>/i);
  const data = JSON.parse(first.out);
  expect(data.answers.length).toBeGreaterThan(3);
  expect(data).toEqual(JSON.parse(readFileSync(join(folder, "two", "demo-book-answers.json"), "utf8")));
  for (const name of ["demo-book-answers.json", "demo-book-log.csv"]) {
    const committed = readFileSync(fileURLToPath(new URL(`../../reports/${name}`, import.meta.url)), "utf8");
    expect(readFileSync(join(folder, "one", name), "utf8") === committed, name).toBe(true);
  }
  for (const answer of data.answers) {
    expect(answer.text).not.toMatch(/undefined|NaN|\[object/);
    expect(answer.kind === "answer" ? answer.short : answer.missing.need).not.toBe("");
  }
});

test("check --fixed writes a sheet that cleans to itself", () => {
  const once = join(folder, "once.csv");
  const twice = join(folder, "twice.csv");
  const typed = fileURLToPath(new URL("../../data-samples/as-typed-book/harvests/2026-spring.csv", import.meta.url));
  expect(runProgram("check", typed, "--fixed", once).status).toBe(0);
  expect(runProgram("check", once, "--fixed", twice).status).toBe(0);
  expect(readFileSync(twice, "utf8")).toBe(readFileSync(once, "utf8"));
});
