import { testRule } from "./rule-table.ts";

testRule(
  "light-cycle",
  [
    ["12/12", "hours", "12"],
    ["16:8", "hours", "16"],
    ["18/6", "hours", "18"],
    ["12h on/12h off", "hours", "12"],
  ],
  [
    ["12", "hours", "12"],
    ["12/13", "hours", "unreadable"],
  ],
);
