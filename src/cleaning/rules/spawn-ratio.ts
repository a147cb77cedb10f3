import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** "1:10" under a share of spawn: one part of spawn to ten of substrate. */
export const spawnRatio: CleaningRule = {
  code: "spawn-ratio",
  kinds: ["percent"],
  apply(text, { conventions: { measures } }) {
    const [, spawn, substrate] = /^(\d{1,3})\s*:\s*(\d{1,4})(?:\s*\(.*\))?$/.exec(text) ?? [];
    if (measures !== "spawn_pct" || !(Number(spawn) > 0) || !(Number(spawn) <= Number(substrate))) return keep;
    const share = Number(((100 * Number(spawn)) / Number(substrate)).toPrecision(12));
    return { kind: "rewrite", text: `${share} %`, reason: "parts of spawn to parts of substrate" };
  },
};
