import { testRule } from "./rule-table.ts";

testRule(
  "container-included",
  [
    ["310 g incl. tray", "mass", "unreadable"],
    ["310 with tub", "mass", "unreadable"],
    ["310 gross", "mass", "unreadable"],
    ["310 g (not tared)", "mass", "unreadable"],
    ["310 with towel", "mass", "unreadable"],
    ["310 g (wet towel)", "mass", "unreadable"],
    ["310 g mit Schale", "mass", "unreadable"],
    ["310 g avec le sac", "mass", "unreadable"],
    ["310 g con la bolsa", "mass", "unreadable"],
    ["310 g con vaschetta", "mass", "unreadable"],
    ["310 g met bak", "mass", "unreadable"],
    ["310 g z workiem", "mass", "unreadable"],
    ["310 g com o saco", "mass", "unreadable"],
  ],
  [
    ["310 g", "mass", "310"],
    ["2 trays 310 g", "mass", "2 trays 310"],
  ],
);
