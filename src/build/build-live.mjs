// Builds what a live report carries: a small script that starts it, and the program packed.
import { bundleForBrowser } from "./bundle.mjs";
import { buildPrograms } from "./shared-programs.mjs";

/**
 * Builds the parts of a live report that are the same for every book. Same sources, same bytes.
 * @param programs what `buildPrograms` gives, where it is at hand
 * @returns the parts, and the files that went into the program
 */
export async function buildLive({ root, version, programs }) {
  const { core, live, liveHash, inputs } = programs ?? (await buildPrograms({ root, version }));
  const loader = await bundleForBrowser({ root, version, entryPoint: "src/live/live-loader.ts" });
  return { parts: { script: loader.text, program: core + live, programHash: liveHash }, inputs: inputs.live };
}
