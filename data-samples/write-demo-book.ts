import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { demoFiles } from "./demo-book.ts";
import { firstYearFiles } from "./first-year.ts";

for (const [path, text] of Object.entries({ ...demoFiles(), ...firstYearFiles() })) {
  const target = `data-samples/${path}`;
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, text);
  console.log(`wrote ${target}`);
}
