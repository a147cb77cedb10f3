import { spawnSync } from "node:child_process";
import {
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { checkBook } from "../../src/cli/command-check.ts";
import { printDue } from "../../src/cli/command-due.ts";
import { newBook, startBook } from "../../src/cli/command-new.ts";
import { planTrial } from "../../src/cli/command-plan.ts";
import { printPrices } from "../../src/cli/command-prices.ts";
import { reportOnBook } from "../../src/cli/command-report.ts";
import type { Output } from "../../src/cli/output/output-place.ts";
import { requirePlaces, writeOutputs } from "../../src/cli/output/output-set.ts";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { harvestSheet } from "./small-book.ts";

let folder = "";
let out = "";
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "gramwright-outputs-")));
  out = join(folder, "out");
  mkdirSync(out);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const html = (text: string) => `<!doctype html><meta name="generator" content="Gramwright 1"><body>${text}</body>`;
const answers = (text: string) => `{\n "format": "gramwright run 2",\n "book": "${text}"\n}\n`;
const set = (text: string): Output[] => [
  { path: join(out, "b-report.html"), text: html(text), kind: "report" },
  { path: join(out, "b-log.csv"), text: issuesCsv([]), kind: "log" },
  { path: join(out, "b-answers.json"), text: answers(text), kind: "answers" },
];
const read = (name: string) => readFileSync(join(out, name), "utf8");

describe("no file that is not ours is written over", () => {
  test("ours are replaced by newer ones; nothing else is left behind", () => {
    writeOutputs(set("one"));
    expect(writeOutputs(set("two"))).toEqual(set("").map(({ path }) => path));
    expect(read("b-report.html")).toBe(html("two"));
    expect(readdirSync(out).sort()).toEqual(["b-answers.json", "b-log.csv", "b-report.html"]);
  });

  test.each([
    ["b-report.html", "<!doctype html><title>holiday</title>"],
    ["b-log.csv", "date,temperature\n2026-01-01,18\n"],
    ["b-log.csv", harvestSheet()],
    ["b-answers.json", '{"format":"other"}'],
  ])("a stranger's %s stops the whole set", (name, text) => {
    writeFileSync(join(out, name), text);
    expect(() => writeOutputs(set("one"))).toThrow(/did not write/);
    expect(readdirSync(out)).toEqual([name]);
    expect(read(name)).toBe(text);
  });

  test("a page is not replaced by a report, nor by what only names us", () => {
    writeFileSync(
      join(out, "b-report.html"),
      '<!doctype html><meta name="generator" content="Gramwright 1"><body class="drop-page">',
    );
    expect(() => writeOutputs(set("one"))).toThrow(/did not write/);
    writeFileSync(join(out, "b-report.html"), "<!doctype html><p>Gramwright is what I use</p>");
    expect(() => writeOutputs(set("one"))).toThrow(/did not write/);
  });

  test("a sheet onto a pipe, a link or a folder is refused, not put beside it", () => {
    const isPiped = spawnSync("mkfifo", [join(out, "pipe.csv")]).status === 0;
    symlinkSync(join(folder, "elsewhere.csv"), join(out, "link.csv"));
    mkdirSync(join(out, "folder.csv"));
    for (const name of [...(isPiped ? ["pipe.csv"] : []), "link.csv", "folder.csv"])
      expect(() => writeOutputs([{ path: join(out, name), text: "a,b", kind: "sheet" }]), name).toThrow(PlainFailure);
    expect(readdirSync(out).filter((name) => name.includes("-2"))).toEqual([]);
  });

  test("a sheet that a person may fill in gets a fresh name, and what belongs to it the same number", () => {
    const plan: Output[] = ["plan.csv", "labels.html"].map((name) => ({
      path: join(out, name),
      text: name,
      kind: "sheet",
    }));
    expect(writeOutputs(plan)).toEqual([join(out, "plan.csv"), join(out, "labels.html")]);
    writeFileSync(join(out, "plan.csv"), "filled in");
    rmSync(join(out, "labels.html"));
    expect(writeOutputs(plan)).toEqual([join(out, "plan-2.csv"), join(out, "labels-2.html")]);
    expect(writeOutputs(plan)).toEqual([join(out, "plan-3.csv"), join(out, "labels-3.html")]);
    expect(read("plan.csv")).toBe("filled in");
  });
});

describe("links, originals and what is no file", () => {
  const sheet = () => join(folder, "spring.csv");
  const originals = () => ({ path: sheet(), isFolder: false, files: [sheet()] });
  beforeEach(() => writeFileSync(sheet(), harvestSheet()));

  test("a link at an output's place is not followed", () => {
    symlinkSync(sheet(), join(out, "b-log.csv"));
    expect(() => writeOutputs(set("one"), originals())).toThrow(/a link of that name/);
    expect(readFileSync(sheet(), "utf8")).toBe(harvestSheet());
  });

  test("a link under the name that earlier versions wrote to first leads nowhere", () => {
    symlinkSync(sheet(), join(out, "b-log.csv.tmp"));
    writeOutputs(set("one"), originals());
    expect(readFileSync(sheet(), "utf8")).toBe(harvestSheet());
  });

  test("an input is refused, also under another name of the same file", () => {
    const log = join(folder, "b-log.csv");
    writeFileSync(log, issuesCsv([]));
    const asInput = { path: log, isFolder: false, files: [log] };
    expect(() => writeOutputs([{ path: log, text: "", kind: "log" }], asInput)).toThrow(
      /one of the sheets that were read/,
    );
    linkSync(log, join(out, "b-log.csv"));
    expect(() => writeOutputs(set("one"), asInput)).toThrow(/one of the sheets that were read/);
  });

  test("nothing goes into the book", () => {
    const book = join(folder, "book");
    mkdirSync(book);
    symlinkSync(book, join(folder, "shortcut"));
    const whole = { path: book, isFolder: true, files: [] };
    for (const place of [book, join(book, "reports", "new"), join(folder, "shortcut")]) {
      const [output] = set("one");
      expect(() => writeOutputs([{ ...output!, path: join(place, "x.html") }], whole), place).toThrow(
        /inside the book/,
      );
    }
    expect(readdirSync(book)).toEqual([]);
  });

  test.skipIf(process.platform === "win32")(
    "devices, files of the system, pipes and folders are refused at once",
    () => {
      const to = (path: string) => () => writeOutputs([{ path, text: "x", kind: "page" }]);
      expect(to("/dev/null")).toThrow(/belongs to the system/);
      expect(to("/dev/new/page.html")).toThrow(/belongs to the system/);
      expect(to("/proc/self/page.html")).toThrow(/belongs to the system/);
      mkdirSync(join(out, "page.html"));
      expect(to(join(out, "page.html"))).toThrow(/this is a folder/);
      if (spawnSync("mkfifo", [join(out, "pipe")]).status === 0) expect(to(join(out, "pipe"))).toThrow(/no file/);
    },
  );
});

describe("one set, old or new", () => {
  test("what a run that was ended had begun to move is finished, and what it had not is taken away", () => {
    writeOutputs(set("old"));
    const [one, two, three] = ["1", "2", "3"].map((digit) => `.gramwright-${digit.repeat(24)}.tmp`) as [
      string,
      string,
      string,
    ];
    writeFileSync(join(out, one), html("new"));
    writeFileSync(join(out, two), answers("new"));
    writeFileSync(join(out, three), "left over");
    const moves = [
      { from: one, to: "b-report.html", kind: "report" },
      { from: two, to: "b-answers.json", kind: "answers" },
      // never onto what is not ours, nor out of the folder
      { from: three, to: "../spring.csv", kind: "log" },
    ];
    writeFileSync(join(out, ".gramwright-moves.json"), JSON.stringify(moves));
    writeOutputs([{ path: join(out, "other.html"), text: html("other"), kind: "report" }]);
    expect([read("b-report.html"), read("b-answers.json")]).toEqual([html("new"), answers("new")]);
    expect(readdirSync(out).filter((name) => name.startsWith("."))).toEqual([]);
    expect(existsSync(join(folder, "spring.csv"))).toBe(false);
  });

  test("the lock of a run that is gone is taken away; one of a run that goes on is respected", () => {
    writeFileSync(join(out, ".gramwright.lock"), "4194305");
    writeOutputs(set("one"));
    writeFileSync(join(out, ".gramwright.lock"), String(process.ppid));
    expect(() => writeOutputs(set("two"))).toThrow(/another run \(process \d+\) is writing there/);
    expect(read("b-report.html")).toBe(html("one"));
  });
});

describe("a place that cannot be written to is refused before any work", () => {
  // the sheet holds no tray, which is what each command says once it has read it
  test("by every command", async () => {
    const sheet = join(folder, "spring.csv");
    writeFileSync(sheet, "tray_id,inoculum_ml,dry_g\n");
    const taken = join(out, "taken");
    writeFileSync(taken, "a stranger's");
    writeFileSync(join(out, "spring-log.csv"), "a stranger's");
    symlinkSync("nowhere", join(out, "planned-harvest.csv"));
    await expect(reportOnBook(sheet, { out })).rejects.toThrow(/spring-log.csv: another file/);
    await expect(reportOnBook(sheet, { out: taken })).rejects.toThrow(/taken is a file, not a folder/);
    await expect(checkBook(sheet, { log: taken })).rejects.toThrow(/taken: another file/);
    await expect(printDue(sheet, { ics: taken })).rejects.toThrow(/taken: another file/);
    await expect(printPrices(sheet, { out: taken })).rejects.toThrow(/taken: another file/);
    await expect(planTrial(sheet, { out, layout: "blocks" })).rejects.toThrow(/planned-harvest.csv: there is a link/);
    await expect(startBook(out, { from: sheet })).rejects.toThrow(/not empty/);
    await expect(checkBook(sheet, { log: join(out, "a"), fixed: join(out, "a") })).rejects.toThrow(/two outputs/);
  });

  test("and no folder is made for it", () => {
    const [output] = set("one");
    requirePlaces([{ ...output!, path: join(out, "new", "deep", "x.html") }]);
    expect(readdirSync(out)).toEqual([]);
  });
});

describe("a new book", () => {
  test("that was ended in the middle leaves nothing in the way of the next run", () => {
    const digits = ["1", "2", "3"].map((digit) => `.gramwright-${digit.repeat(24)}.tmp`);
    // ended before it took its place
    mkdirSync(join(out, digits[0]!, "harvests"), { recursive: true });
    writeOutputs(set("one"));
    expect(readdirSync(out).filter((name) => name.startsWith("."))).toEqual([]);
    // ended while a folder that was there was filled: what had begun to move is finished
    const there = join(folder, "there");
    mkdirSync(join(there, digits[1]!), { recursive: true });
    writeFileSync(join(there, digits[2]!), "costs");
    writeFileSync(
      join(there, ".gramwright-moves.json"),
      JSON.stringify([
        { from: digits[1], to: "harvests", kind: "sheet" },
        { from: digits[2], to: "costs.csv", kind: "sheet" },
      ]),
    );
    expect(() => newBook(there)).toThrow(/not empty/);
    expect(readdirSync(there).sort()).toEqual(["costs.csv", "harvests"]);
    // ended before that: as if nothing had been
    const empty = join(folder, "empty");
    mkdirSync(join(empty, digits[1]!, "harvests"), { recursive: true });
    newBook(empty);
    expect(readdirSync(empty)).toHaveLength(6);
  });

  test("is there whole or not at all, also where its folder is there already", () => {
    const names = ["README.md", "columns-by-question.html", "costs.csv", "harvests", "products.csv", "settings.csv"];
    newBook(join(folder, "one"));
    mkdirSync(join(folder, "two"));
    newBook(join(folder, "two"));
    for (const name of ["one", "two"]) expect(readdirSync(join(folder, name)).sort()).toEqual(names);
    expect(() => newBook(join(folder, "two"))).toThrow(/not empty/);
    writeFileSync(join(folder, "file"), "x");
    expect(() => newBook(join(folder, "file"))).toThrow(/Give a folder that can be made/);
    expect(readdirSync(folder).sort()).toEqual(["file", "one", "out", "two"]);
  });
});
