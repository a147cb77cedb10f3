// Builds what a live report carries: a small script that starts it, the program packed, and its style.
import { createHash } from "node:crypto";
import { gzipSync } from "node:zlib";
import { bundleForBrowser } from "../browser/bundle.mjs";

/**
 * Builds the parts of a live report that are the same for every book. Same sources, same bytes.
 * @returns the parts, and the files that went into the program
 */
export async function buildLive({ root, version }) {
  const program = await bundleForBrowser({ root, version, entryPoint: "src/entry/live/live-program.ts" });
  const loader = await bundleForBrowser({ root, version, entryPoint: "src/entry/live/live-loader.ts" });
  const hash = createHash("sha256").update(program.text).digest("base64");
  return {
    parts: {
      script: loader.text,
      program: gzipSync(program.text, { level: 9 }).toString("base64"),
      programHash: `sha256-${hash}`,
    },
    inputs: program.inputs,
  };
}
