import { testRule } from "./rule-table.ts";

const fresh = { measures: "fresh_g" } as const;
const dry = { measures: "dry_g" } as const;

testRule(
  "state-of-weight",
  [
    ["310 g fresh", "mass", "310", fresh],
    ["310g wet weight", "mass", "310", fresh],
    ["310 (fresh)", "mass", "310", fresh],
    ["31 g, dry", "mass", "31", dry],
    ["31.5g (dried)", "mass", "31.5", dry],
    ["2 trays 310g fresh", "mass", "2 trays 310", fresh],
    ["310 g fresh", "mass", "unreadable", dry],
    ["31 g (dry)", "mass", "unreadable", fresh],
  ],
  [
    ["310 g fresh", "mass", "unreadable"],
    ["310 g (wet one)", "mass", "310", fresh],
    ["310 g", "mass", "310", fresh],
    ["dry", "mass", "unreadable", dry],
  ],
);
