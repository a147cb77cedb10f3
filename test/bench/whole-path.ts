import { spawnSync } from "node:child_process";
import { createReadStream, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { writeBigSheet } from "./big-sheet.ts";
import { medianMilliseconds, printRatio } from "./ratio.ts";

/** Reads a sheet with papaparse alone, row by row, keeping nothing. */
function parseAlone(path: string): Promise<number> {
  return new Promise((resolve, reject) => {
    let rows = 0;
    Papa.parse(createReadStream(path), {
      step: () => {
        rows++;
      },
      complete: () => resolve(rows),
      error: reject,
    });
  });
}

/** Runs a program to its end and says how long it took and how much memory it held at most (kB, where the system tells). */
function runNode(args: ReadonlyArray<string>): { milliseconds: number; peakKilobytes: number | undefined } {
  const start = performance.now();
  const timed = spawnSync(process.execPath, args, { encoding: "utf8" });
  const milliseconds = performance.now() - start;
  if (timed.status !== 0) throw new Error(`${args.join(" ")} ended with ${timed.status}: ${timed.stderr}`);
  const peak = /peak memory (\d+) kB/.exec(timed.stderr);
  return { milliseconds, peakKilobytes: peak ? Number(peak[1]) : undefined };
}

const reportPeak = `data:text/javascript,process.on("exit",()=>process.stderr.write("peak memory "+process.resourceUsage().maxRSS+" kB\\n"))`;

/** The whole path from sheet to report against a bare parse of the same sheet, and the program's start-up time. */
export async function benchWholePath(
  sizes: ReadonlyArray<number>,
  options: { reportOnAll?: boolean } = {},
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-bench-"));
  try {
    for (const size of sizes) {
      const sheet = join(folder, `harvest-${size}.csv`);
      writeBigSheet(sheet, size);
      const runs = size > 100_000 ? 1 : 5;
      const baselineMilliseconds = await medianMilliseconds(() => parseAlone(sheet), runs);
      for (const [command, ...rest] of [
        ["check", sheet],
        ["report", sheet, "--out", folder],
      ] as const) {
        // the report on a million rows is a part of the bench of its own: it takes its time
        if (command === "report" && size > 100_000 && !options.reportOnAll) continue;
        let peak = 0;
        const milliseconds = await medianMilliseconds(() => {
          const run = runNode(["--import", reportPeak, "dist/gramwright.js", command, ...rest]);
          peak = Math.max(peak, run.peakKilobytes ?? 0);
        }, runs);
        printRatio({
          work: `${command === "check" ? "sheet to clean records" : "sheet to report"}, ${size} rows, start-up of the program included`,
          baseline: "papaparse alone",
          milliseconds,
          baselineMilliseconds,
          ...(size === 1_000_000 ? { goal: 5 } : {}),
        });
        console.log(
          `  peak memory ${(peak / 1024).toFixed(0)} MB (${((peak / 1024 / size) * 1e6).toFixed(0)} MB per million rows)`,
        );
        if (size === 200 && command === "report") {
          const bare = await medianMilliseconds(
            () => runNode(["--input-type=module", "-e", 'await import("vega-lite"); await import("vega");']),
            runs,
          );
          printRatio({
            work: "200 rows to report",
            baseline: "Node importing vega-lite and vega",
            milliseconds,
            baselineMilliseconds: bare,
            goal: 3,
          });
        }
      }
    }
    const nothing = await medianMilliseconds(() => runNode(["-e", "0"]), 9);
    const help = await medianMilliseconds(() => runNode(["dist/gramwright.js", "--help"]), 9);
    printRatio({ work: "gramwright --help", baseline: "node -e 0", milliseconds: help, baselineMilliseconds: nothing });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
