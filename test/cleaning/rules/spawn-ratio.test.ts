import { testRule } from "./rule-table.ts";

const measures = "spawn_pct";

// common practice, no source
testRule(
  "spawn-ratio",
  [
    ["1:10", "percent", "0.1", { measures }],
    ["1 : 4", "percent", "0.25", { measures }],
  ],
  [
    ["10:1", "percent", "unreadable", { measures }],
    ["1:10", "percent", "unreadable"],
  ],
);
