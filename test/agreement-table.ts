import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { type Agreement, agreementFolder } from "./agreement.ts";

type Row = Agreement & { digits: number; atLeast: number; compared: number };

/** Vitest global set-up: empties the waiting rows; its tear-down prints them as one table. */
export default function agreementTable(): () => void {
  rmSync(agreementFolder, { recursive: true, force: true });
  return () => {
    if (!existsSync(agreementFolder)) return;
    const rows = readdirSync(agreementFolder)
      .flatMap((file) => readFileSync(new URL(file, agreementFolder), "utf8").trim().split("\n"))
      .map((line) => JSON.parse(line) as Row)
      .sort(
        (a, b) =>
          a.method.localeCompare(b.method) ||
          a.dataset.localeCompare(b.dataset) ||
          a.statistic.localeCompare(b.statistic),
      );
    const heads = ["method", "data set", "statistic", "digits", "needed", "values", "source"];
    const cells = rows.map((row) => [
      row.method,
      row.dataset,
      row.statistic,
      row.digits.toFixed(1),
      row.atLeast.toFixed(1),
      String(row.compared),
      row.source,
    ]);
    const widths = heads.map((head, column) => Math.max(head.length, ...cells.map((line) => line[column]!.length)));
    const print = (line: string[]) =>
      line
        .map((cell, column) =>
          column >= 3 && column <= 5 ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!),
        )
        .join("  ")
        .trimEnd();
    process.stdout.write(`\nDigits agreed with published values\n${[heads, ...cells].map(print).join("\n")}\n\n`);
  };
}
