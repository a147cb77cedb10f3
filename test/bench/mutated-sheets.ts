import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readBook } from "../../src/engine/read-book.ts";
import { runBook } from "../../src/engine/run-book.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { sourcesOf } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { printAttack } from "./attacks.ts";

const spice = [..."\u0000\u001b\u00a0\u200b\ufeff,;\t\"'=+-@\n\r|%°€½()[]{}<>&\\/", "NaN", "1e999", "-0", "__proto__"];

/** A text with some of it changed, cut, doubled or spiced. */
function mutated(text: string, random: ReturnType<typeof seededRandom>): string {
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

/** A sheet from a text. */
export function sourceOf(path: string, text: string): SheetSource {
  const bytes = new TextEncoder().encode(text);
  return { path, size: bytes.length, chunks: () => [bytes] };
}

/**
 * Sheets and whole books with faults in them: nothing throws, nothing takes long, and every row is accounted for.
 * @returns what was found, counted
 */
export async function mutatedBooks(sheets: number, books: number, seed = 17) {
  const paths = ["costs.csv", "products.csv", "settings.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"];
  const bases = ["demo-book", "as-typed-book"].map((name) =>
    paths.map((path) => [path, readFileSync(join("data-samples", name, path), "utf8")] as const),
  );
  const random = seededRandom(seed);
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
        trays.flatMap((tray) => sourcesOf(tray).flatMap((one) => (one.file === file ? [one.row] : []))),
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
  printAttack("mutated sheets and books", { ...found, "slowest, s": slowest.toFixed(2) });
  return found;
}
