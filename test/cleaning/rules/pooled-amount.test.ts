import { testRule } from "./rule-table.ts";

testRule(
  "pooled",
  [
    ["2 trays 310g", "mass", "2 trays 310"],
    ["310 g (2 trays)", "mass", "2 trays 310"],
    ["310g for 3 trays", "mass", "3 trays 310"],
    ["two bags: 1.5 lb", "mass", "2 trays 680.388555"],
    ["2 trays ~310 g", "mass", "2 trays 310"],
    ["40 (both)", "mass", "unreadable"],
    ["410 g together", "mass", "unreadable"],
    ["40 for both trays", "mass", "unreadable"],
    ["41 (beide)", "mass", "unreadable"],
    ["40 g, les deux", "mass", "unreadable"],
  ],
  [
    ["310 g", "mass", "310"],
    ["310 (both flushes)", "mass", "310"],
    ["310 g (flushes together)", "mass", "310"],
    ["10 (both sides)", "volume", "10"],
    ["2 trays", "count", "2"],
  ],
);
