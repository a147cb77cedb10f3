import { testRule } from "./rule-table.ts";

testRule(
  "surrounding-space",
  [
    [" 310 ", "mass", "310"],
    ["310  g", "mass", "310"],
    ["\t22 C", "temperature", "22"],
  ],
  [
    ["310 g", "mass", "310"],
    ["   ", "mass", "missing: blank"],
  ],
);
