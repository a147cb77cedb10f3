import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { demoFiles } from "./demo-book.ts";

for (const [path, text] of Object.entries(demoFiles())) {
  const target = `data-samples/${path}`;
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, text);
  console.log(`wrote ${target}`);
}
