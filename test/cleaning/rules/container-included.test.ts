import { testRule } from "./rule-table.ts";

testRule(
  "container-included",
  [
    ["310 g incl. tray", "mass", "unreadable"],
    ["310 with tub", "mass", "unreadable"],
    ["310 gross", "mass", "unreadable"],
    ["310 g (not tared)", "mass", "unreadable"],
  ],
  [
    ["310 g", "mass", "310"],
    ["2 trays 310 g", "mass", "2 trays 310"],
  ],
);
