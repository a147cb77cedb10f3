import { testRule } from "./rule-table.ts";

const dose = { measures: "inoculum_ml", bareUnit: "mL", bareUnitReason: "" } as const;
const fresh = { measures: "fresh_g" } as const;

testRule(
  "named-amount",
  [
    ["LC: 5 ml", "volume", "5", dose],
    ["LC 10ml", "volume", "10", dose],
    ["10 ml LC", "volume", "10", dose],
    ["5ml of liquid culture", "volume", "5", dose],
    ["LC: 5 ml LC", "volume", "5", dose],
    ["5 ml (LC)", "volume", "5", dose],
    ["7,5 ml Flüssigkultur", "volume", "7.5", { ...dose, decimalMark: "," }],
    ["fresh 310 g", "mass", "310", fresh],
    ["harvest weight: 11 oz", "mass", "311.844754375", fresh],
  ],
  [
    ["5 ml water", "volume", "unreadable", dose],
    ["5 ml LC", "volume", "unreadable"],
    ["LC 10", "volume", "unreadable", dose],
    ["dry 31 g", "mass", "unreadable", fresh],
    ["10 ml", "volume", "10", dose],
  ],
);
