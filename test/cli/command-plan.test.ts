import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { decideTreatment, thingsOf } from "../../analyses/treatment/treatment-decision.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { type PlanOptions, planFor, planTrial } from "../../src/cli/command-plan.ts";
import { openBook } from "../../src/cli/open-book.ts";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { armsOf } from "../../src/design/arm.ts";
import { companionFactors, doseFactor, fruitingFactor } from "../../src/design/factor.ts";
import { hasBlocks, tiedTo } from "../../src/design/layout.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import { splitPlotOverChambers } from "../../src/planning/trial-plan.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { sheet } from "../cleaning/book-of.ts";

const quiet = { say: () => {}, done: () => {} };
const demo = fileURLToPath(new URL("../../data-samples/demo-book", import.meta.url));
const book = await openBook(demo, quiet);
const base: PlanOptions = { out: "unused", layout: "blocks", seed: 11 };

const source = (text: string): SheetSource => sheet("harvests/planned-harvest.csv", text);

/** The planned sheet with weights and dates typed in, as a grower would. */
function filledIn(sheet: string): string {
  const random = seededRandom(5);
  const [header, ...rows] = sheet
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(","));
  const at = (key: string) => header!.indexOf(key);
  for (const row of rows) {
    row[at("outcome")] = "good";
    row[at("inoculated_on")] = "2026-09-01";
    row[at("harvested_on")] = "2026-10-20";
    row[at("dry_g")] = (15 + Number(row[at("inoculum_ml")]) + random.normal()).toFixed(1);
  }
  return [header!, ...rows].map((row) => row.join(",")).join("\r\n");
}

/** A row of a planned sheet with its inoculation date typed in. */
function withDate(header: string, row: string): string {
  const at = header.split(",").indexOf("inoculated_on");
  return row
    .split(",")
    .map((cell, column) => (column === at ? "2026-03-10" : cell))
    .join(",");
}

test("the demo book gets a trial within its shelves, with money weighed", () => {
  const { says, plan } = planFor(book, base);
  expect(says.join("\n")).toContain("Money: choosing the dose better is worth");
  const perCook = new Map<string, number>();
  for (const { cook } of plan.trays) perCook.set(cook, (perCook.get(cook) ?? 0) + 1);
  expect(Math.max(...perCook.values())).toBeLessThanOrEqual(book.settings.shelfPlaces);
  expect(book.trays.map(({ batch }) => batch)).not.toContain(plan.trays[0]!.cook);
});

test("the sheet filled in and read back is recognised: cooks as blocks, no ties, and the effect found", async () => {
  const { plan, files } = planFor(book, { ...base, doses: [5, 10, 15], trays: 4, cooks: 3 });
  const back = await cleanBook([source(filledIn(files["planned-harvest.csv"]))]);
  expect(back.issues.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(back.trays.map(({ trayId }) => trayId)).toEqual(plan.trays.map(({ trayId }) => trayId));
  expect(hasBlocks(back.trays, doseFactor)).toBe(true);
  expect(tiedTo(back.trays, doseFactor, companionFactors)).toBeUndefined();
  expect(armsOf(back.trays, doseFactor).map(({ level, trays }) => [level, trays.length])).toEqual([
    ["5", 12],
    ["10", 12],
    ["15", 12],
  ]);
  const outcome = whatChangedTheYield.run(trialOf(back));
  expect(outcome.kind === "answer" && outcome.certainty).toBe("settled");
});

test("the empty sheet is a plan: no tray is started until a date is filled in, and its names are taken", async () => {
  const { files, plan } = planFor(book, { ...base, doses: [5, 10], on: "2026-03-02" });
  const sheet = files["planned-harvest.csv"];
  const back = await cleanBook([source(sheet)]);
  expect(back.trays).toEqual([]);
  expect(back.planned).toHaveLength(plan.trays.length);
  expect(back.leftOut.map(({ rule }) => rule)).toEqual(plan.trays.map(() => "planned-not-started"));
  expect(back.issues.filter(({ severity }) => severity !== "note")).toEqual([]);
  const [header, first, ...others] = sheet.split("\r\n");
  const started = await cleanBook([source([header, withDate(header!, first!), ...others].join("\r\n"))]);
  expect(started.trays.map(({ trayId, outcome }) => [trayId, outcome])).toEqual([[plan.trays[0]!.trayId, "growing"]]);
  expect(started.planned).toHaveLength(plan.trays.length - 1);
  const next = planFor({ ...book, planned: back.planned! }, { ...base, doses: [5, 10], on: "2026-03-09" });
  expect(next.says[0]).toBe(
    "The trial planned on 2026-03-02 is in the book and not started yet: its trays count once dates are filled in.",
  );
  const cooks = new Set(plan.trays.map(({ cook }) => cook));
  expect(next.plan.trays.some(({ cook }) => cooks.has(cook))).toBe(false);
});

test("filled in it is the trial planned on its day: cooks and lot come from it, and its question is the first", async () => {
  const { files, plan } = planFor(book, { ...base, doses: [5, 15], trays: 3, cooks: 3, on: "2026-03-02" });
  const sheet = files["planned-harvest.csv"];
  const whole = trialOf(await cleanBook([source(filledIn(sheet))]));
  expect(whole.settings).toMatchObject({ varied: "inoculum_ml", plannedCooks: 3, dosesDrawnByLot: "yes" });
  expect(whole.reading).toBe("awaited");
  const outcome = whatChangedTheYield.run(whole);
  const said = outcome.kind === "answer" ? outcome.sentence.join("") : "";
  expect(said).toContain("This is the trial planned on 2 Mar 2026: 3 of its 3 cooks are finished.");
  // two cooks filled in: not the reading that was planned
  const rows = filledIn(sheet).split("\r\n");
  const empty = sheet.split("\r\n");
  const last = plan.trays.findIndex(({ cook }) => cook === plan.trays.at(-1)!.cook) + 1;
  const part = await cleanBook([source([...rows.slice(0, last), ...empty.slice(last)].join("\r\n"))]);
  expect(trialOf(part).reading).toBe("other");
  expect(part.planned).toHaveLength(6);
  // beside trays that nobody planned, the plan's cooks are counted among its own trays, and its lot says nothing of those
  const mixed = trialOf({ ...book, trays: [...book.trays, ...whole.trays] });
  expect(mixed.settings).toMatchObject({ varied: "inoculum_ml", plannedCooks: 3, dosesDrawnByLot: "" });
  // what is typed in settings.csv comes first
  const typed = await cleanBook([
    source(filledIn(sheet)),
    { ...source("key,value\nplanned_cooks,5\n"), path: "settings.csv" },
  ]);
  expect(trialOf(typed).settings.plannedCooks).toBe(5);
});

test("a split plot read back: temperature by chamber run, dose by tray", async () => {
  const rooms = book.trays.map((tray, k) => ({
    ...tray,
    chamber: k % 2 ? "A" : "B",
    fruitingCelsius: k % 2 ? 16 : 19,
  }));
  const { files } = planFor(
    { ...book, trays: rooms },
    { ...base, layout: "split", doses: [5, 10], trays: 2, cooks: 4 },
  );
  const back = await cleanBook([source(filledIn(files["planned-harvest.csv"]))]);
  expect(hasBlocks(back.trays, doseFactor)).toBe(true);
  expect(armsOf(back.trays, fruitingFactor).map(({ level }) => level)).toEqual(["16", "19"]);
});

test("a split plot for chambers and temperatures the book has not had: swapped, and judged once it is filled in", async () => {
  const { files } = planFor(book, {
    ...base,
    layout: "split",
    doses: [5, 10],
    trays: 2,
    cooks: 3,
    chambers: ["tent", "cupboard"],
    temperatures: [18, 15],
  });
  const back = await cleanBook([source(filledIn(files["planned-harvest.csv"]))]);
  const trial = trialOf(back);
  const thing = thingsOf(trial).find(({ factor }) => factor.key === fruitingFactor.key)!;
  const on = { response: yieldPerGoodTray("dry"), better: "higher", withLost: true } as const;
  const { decision, beside } = decideTreatment(trial, thing, on)!;
  expect([decision.method, decision.cooks, decision.levels.map(({ level }) => level)]).toEqual([
    "inside-cooks",
    3,
    [15, 18],
  ]);
  expect(beside.takenOut[0]?.factor).toBe(doseFactor);
});

test.each(Array.from({ length: 30 }, (_, seed) => seed))(
  "no setting ever belongs to one chamber: every chamber gets each once in as many cooks as chambers, seed %i",
  (seed) => {
    const rooms = ["a", "b", "c"];
    const { trays } = splitPlotOverChambers({
      arms: [{ inoculum_ml: "5" }, { inoculum_ml: "10" }],
      traysPerArm: 1,
      cooks: ["C1", "C2", "C3", "C4"],
      traysPerLoad: 12,
      seed,
      prefix: "",
      random: seededRandom(seed),
      chambers: rooms,
      settings: ["14", "16", "18"].map((fruiting_c) => ({ fruiting_c })),
    });
    for (const room of rooms) {
      const had = trays.filter(({ chamber, cook }) => chamber === room && cook !== "C4");
      expect([...new Set(had.map(({ treatments }) => treatments.fruiting_c))].sort()).toEqual(["14", "16", "18"]);
    }
    for (const cook of ["C1", "C2", "C3", "C4"]) {
      const runs = trays.filter((tray) => tray.cook === cook);
      expect(new Set(runs.map(({ treatments }) => treatments.fruiting_c)).size).toBe(3);
    }
  },
);

test("options that make no sense are refused in one line", () => {
  const refused = (options: Partial<PlanOptions>) => () => planFor(book, { ...base, ...options });
  expect(refused({ doses: [5, 0] })).toThrow(PlainFailure);
  expect(refused({ trays: 0 })).toThrow(/--trays/);
  expect(refused({ layout: "split" })).toThrow(/two or more chambers/);
  expect(refused({ layout: "split", chambers: ["a", "b", "c"], temperatures: [15, 18] })).toThrow(/3 and 2/);
  expect(refused({ layout: "split", chambers: ["a", "b"], temperatures: [15, 180] })).toThrow(/received 180/);
  expect(refused({ temperatures: [15, 18] })).toThrow(/belongs to --layout split/);
  expect(refused({ layout: "latin", doses: [5, 10, 15], cooks: 2 })).toThrow(/need 3 cooks/);
  expect(refused({ doses: [5] })).toThrow(/at least two different doses/);
});

test("a trial that does not pay is advised against, and nothing is written unless asked for anyway", async () => {
  const out = join(mkdtempSync(join(tmpdir(), "gramwright-plan-")), "next-trial");
  expect(planFor(book, base).against).toContain("does not pay");
  await planTrial(demo, { ...base, out });
  expect(existsSync(out)).toBe(false);
});

test("three files are written, and none is written over", async () => {
  const out = mkdtempSync(join(tmpdir(), "gramwright-plan-"));
  try {
    await planTrial(demo, { ...base, out, doses: [5, 10], anyway: true });
    expect(readFileSync(join(out, "tray-labels.html"), "utf8")).toContain("<svg");
    expect(readFileSync(join(out, "cooker-loads.html"), "utf8")).toContain("drawn with seed 11");
    writeFileSync(join(out, "planned-harvest.csv"), "filled in");
    await planTrial(demo, { ...base, out, doses: [5, 10], anyway: true });
    expect(readFileSync(join(out, "planned-harvest.csv"), "utf8")).toBe("filled in");
    expect(readdirSync(out).filter((name) => name.includes("-2."))).toEqual([
      ...["cooker-loads-2.html", "planned-harvest-2.csv", "tray-labels-2.html"],
    ]);
  } finally {
    rmSync(out, { recursive: true });
  }
});
