import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { buildInto } from "../../src/build/move-in.mjs";
import { builtFile } from "../built-file.ts";
import { harvestSheet } from "../cli/small-book.ts";

const hour = 3_600_000;
let folder = "";
let place = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gramwright-build-"));
  place = join(folder, "dist");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const writing =
  (files: Record<string, string>) =>
  (fresh: string): void => {
    for (const [name, text] of Object.entries(files)) writeFileSync(join(fresh, name), text);
  };
const inPlace = () =>
  readdirSync(place)
    .filter((name) => name !== "left-over.json")
    .sort();

test("a build that fails half-way leaves the one before whole, and nothing of itself", async () => {
  await buildInto(place, writing({ "entry.js": "old", "part-a.js": "a" }), { entry: "entry.js" });
  const failing = async (fresh: string) => {
    writing({ "entry.js": "new" })(fresh);
    throw new Error("no room on the disk");
  };
  await expect(buildInto(place, failing, { entry: "entry.js" })).rejects.toThrow("no room on the disk");
  expect(inPlace()).toEqual(["entry.js", "part-a.js"]);
  expect(readFileSync(join(place, "entry.js"), "utf8")).toBe("old");
  expect(readdirSync(folder)).toEqual(["dist"]);
});

test("parts of the build before stay for an hour after they were replaced, however old; none in a build of its own", async () => {
  const options = (now: number) => ({ entry: "entry.js", now });
  await buildInto(place, writing({ "entry.js": "1", "part-a.js": "a" }), options(0));
  await buildInto(place, writing({ "entry.js": "2", "part-b.js": "b" }), options(100 * hour));
  expect(inPlace()).toEqual(["entry.js", "part-a.js", "part-b.js"]);
  await buildInto(place, writing({ "entry.js": "3", "part-c.js": "c" }), options(100.5 * hour));
  expect(inPlace()).toEqual(["entry.js", "part-a.js", "part-b.js", "part-c.js"]);
  await buildInto(place, writing({ "entry.js": "4", "part-c.js": "c" }), options(101.2 * hour));
  expect(inPlace()).toEqual(["entry.js", "part-b.js", "part-c.js"]);
  await buildInto(place, writing({ "entry.js": "5" }), { ...options(101.3 * hour), isAlone: true });
  expect(readdirSync(place)).toEqual(["entry.js"]);
});

/** The built program with other names for its parts, as a change of any source gives. */
function renamed(mark: string): Record<string, string> {
  const names = readdirSync(builtFile("")).filter((name) => statSync(builtFile(name)).isFile());
  return Object.fromEntries(
    names.map((name) => {
      const text = readFileSync(builtFile(name), "utf8");
      const to = (part: string) => part.replaceAll(/part-([A-Z0-9]{8})/g, `part-$1${mark}`);
      return [to(name), name.endsWith(".js") ? to(text) : text];
    }),
  );
}

test("a report begun before a build ends well, and so does one begun after", async () => {
  writeFileSync(join(folder, "package.json"), '{"type":"module"}');
  const sheet = join(folder, "spring.csv");
  writeFileSync(sheet, harvestSheet());
  const run = () =>
    new Promise<{ status: number | null; err: string }>((resolve) => {
      const out = mkdtempSync(join(folder, "out-"));
      const child = spawn(process.execPath, [join(place, "gramwright.js"), "report", sheet, "--out", out]);
      let err = "";
      child.stderr.on("data", (chunk) => {
        err += chunk;
      });
      child.on("close", (status) => resolve({ status, err }));
    });
  await buildInto(place, writing(renamed("one")), { entry: "gramwright.js" });
  const begun = run();
  await new Promise((resolve) => setTimeout(resolve, 150));
  await buildInto(place, writing(renamed("two")), { entry: "gramwright.js" });
  expect(await begun).toMatchObject({ status: 0 });
  expect(await run()).toMatchObject({ status: 0 });
});
