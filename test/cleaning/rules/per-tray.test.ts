import { testRule } from "./rule-table.ts";

testRule(
  "per-tray",
  [
    ["10 mL/tray", "volume", "10"],
    ["10 ml each", "volume", "10"],
    ["5 ml pro Beutel", "volume", "5"],
    ["210 g per bag", "mass", "210"],
    ["10 ml par sac", "volume", "10"],
    ["10 ml por bolsa", "volume", "10"],
    ["10 ml na worek", "volume", "10"],
  ],
  [["10 ml", "volume", "10"]],
);
