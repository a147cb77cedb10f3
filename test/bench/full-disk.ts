import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { type AttackTable, contents } from "./attacks.ts";
import { commandLine } from "./command-line.ts";
import { writingCommands } from "./kill-commands.ts";

const demo = "data-samples/demo-book";

/** Leaves so many bytes of a small disk, or as near as its blocks allow. */
function fillUp(disk: string, left: number): void {
  spawnSync("dd", ["if=/dev/zero", `of=${join(disk, "filling")}`, "bs=1k"], { stdio: "ignore" });
  const { stdout } = spawnSync("stat", ["-c", "%s", join(disk, "filling")], { encoding: "utf8" });
  spawnSync("truncate", ["-s", String(Math.max(0, Number(stdout) - left)), join(disk, "filling")]);
}

/** Every command that writes, on a disk with next to nothing left: it says so, the old set stays, nothing else is left. */
export function fullDisk(folder: string, table: AttackTable): void {
  const disk = join(folder, "disk");
  mkdirSync(disk);
  const found = { "not said": 0, "old set changed": 0, "left behind": 0, "next run fails": 0 };
  let tried = 0;
  for (const [name, argsOf] of Object.entries(writingCommands)) {
    if (name === "watch") continue; // it does not end; it writes what a report does
    if (spawnSync("mount", ["-t", "tmpfs", "-o", "size=8m", "tmpfs", disk]).status !== 0) {
      table.skip("full disk", "no disk may be mounted here");
      return;
    }
    try {
      const out = join(disk, "out");
      mkdirSync(out);
      const args = argsOf(demo, out);
      commandLine(args);
      for (const left of [0, 4096, 16_384]) {
        tried++;
        const before = JSON.stringify([...contents(out)]);
        if (name === "new") rmSync(join(out, "begun"), { recursive: true });
        fillUp(disk, left);
        const { status, err } = commandLine(args);
        rmSync(join(disk, "filling"));
        // what is small enough has room
        if (status !== 0 && !/the disk is full/.test(err)) found["not said"]++;
        if (status !== 0 && name !== "new" && JSON.stringify([...contents(out)]) !== before) found["old set changed"]++;
        found["left behind"] += readdirSync(out).filter((file) => file.startsWith(".")).length;
        if (commandLine(args).status !== 0) found["next run fails"]++;
      }
    } finally {
      spawnSync("umount", [disk]);
    }
  }
  table.add("full disk, each command that writes", tried, found);
}
