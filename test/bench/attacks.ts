import { lstatSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Every file under a folder by its name there, with its content; folders and what is no file are left out. */
export const contents = (folder: string): Map<string, string> =>
  new Map(
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .sort()
      .flatMap((name): [string, string][] => {
        const path = join(folder, name);
        return lstatSync(path).isFile() ? [[name, readFileSync(path, "base64")]] : [];
      }),
  );

/** Prints one attack and what it did as a line. */
export function printAttack(attack: string, result: Record<string, number | string>): void {
  const parts = Object.entries(result).map(([what, count]) => `${what} ${count}`);
  console.log(`${attack}: ${parts.join(", ")}`);
}
