import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync } from "node:fs";
import { homedir, tmpdir } from "node:os";
import { delimiter, join } from "node:path";

/** A version of Node on this machine. */
export interface OtherNode {
  version: string;
  path: string;
}

const versionOf = (path: string): string | undefined => {
  const { status, stdout } = spawnSync(path, ["--version"], { encoding: "utf8" });
  return status === 0 ? stdout.trim() : undefined;
};

/**
 * Versions of Node beside the one that runs, one for each major number from 20: those on the PATH as node20 and so on, those
 * of the version managers' usual folder, and those named in GRAMWRIGHT_NODES, with the PATH's mark between them.
 */
export function otherNodes(): OtherNode[] {
  const kept = join(homedir(), ".nvm", "versions", "node");
  const paths = [
    ...(process.env.GRAMWRIGHT_NODES ?? "").split(delimiter),
    ...(process.env.PATH ?? "").split(delimiter).flatMap((folder) => [20, 22, 24].map((k) => join(folder, `node${k}`))),
    ...(existsSync(kept) ? readdirSync(kept).map((name) => join(kept, name, "bin", "node")) : []),
  ].filter((path) => path !== "" && existsSync(path));
  const found = new Map<string, OtherNode>();
  for (const path of new Set(paths.map((one) => realpathSync(one)))) {
    const version = versionOf(path);
    const major = /^v(\d+)\./.exec(version ?? "")?.[1] ?? "";
    if (version === undefined || Number(major) < 20 || process.version.startsWith(`v${major}.`)) continue;
    found.set(major, { version, path });
  }
  return [...found.values()];
}

/** What a report on the demo book writes under a version of Node: each file by its name. */
export function reportUnder(node: string, program: string): Map<string, string> {
  const out = mkdtempSync(join(tmpdir(), "gramwright-node-"));
  try {
    const { status, stderr } = spawnSync(node, [program, "report", "data-samples/demo-book", "--out", out], {
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(`${node}: the report ended with ${status}: ${stderr}`);
    return new Map(readdirSync(out).map((name) => [name, readFileSync(join(out, name), "utf8")]));
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}
