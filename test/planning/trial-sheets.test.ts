import decodeQR from "qr/decode.js";
import { expect, test } from "vitest";
import { layOutTrial } from "../../analyses/planning/lay-out-trial.ts";
import { doseArms } from "../../analyses/planning/planned-thing.ts";
import { armLetters, treatmentWords } from "../../src/planning/arm-letters.ts";
import { loadMap } from "../../src/planning/load-map.ts";
import { nextCooks } from "../../src/planning/next-cooks.ts";
import { plannedRows } from "../../src/planning/planned-rows.ts";
import { sharedByLatest } from "../../src/planning/shared-by-latest.ts";
import { trayCode, trayLabels } from "../../src/planning/tray-labels.ts";
import { plannedTrialOf } from "../../src/records/planned-trial.ts";
import { trayRecord } from "../analyses/demo-records.ts";

const base = {
  layout: "blocks" as const,
  arms: doseArms([5, 10, 15]),
  traysPerArm: 4,
  cooks: ["C8", "C9", "C10"],
  traysPerLoad: 6,
  seed: 7,
  prefix: "",
  chambers: ["A", "B"],
  fruitingCelsius: [16, 19],
};

const tagsOf = (plan: ReturnType<typeof layOutTrial>) =>
  [...new Set(plan.trays.map((tray) => treatmentWords(tray).join()))].sort();

/** How often each treatment stands in each group. */
function counts(trays: ReadonlyArray<{ treatments: Record<string, string> }>, groupOf: (tray: never) => string) {
  const found = new Map<string, number>();
  for (const tray of trays) {
    const key = `${groupOf(tray as never)} ${tray.treatments.inoculum_ml}`;
    found.set(key, (found.get(key) ?? 0) + 1);
  }
  return found;
}

test("blocks: every cook holds every dose equally often, every load nearly so, and liquid adds up to the highest dose", () => {
  const plan = layOutTrial(base);
  expect(plan.trays).toHaveLength(36);
  expect([...counts(plan.trays, ({ cook }: { cook: string }) => cook).values()]).toEqual(Array(9).fill(4));
  const perLoad = [...counts(plan.trays, ({ load }: { load: string }) => load).values()];
  expect(Math.max(...perLoad) - Math.min(...perLoad)).toBeLessThanOrEqual(1);
  for (const { treatments } of plan.trays) {
    expect(Number(treatments.inoculum_ml) + Number(treatments.added_liquid_ml)).toBe(15);
  }
  expect(new Set(plan.trays.map(({ trayId }) => trayId)).size).toBe(36);
});

test("the same seed draws the same trial, another seed another", () => {
  expect(layOutTrial(base)).toEqual(layOutTrial(base));
  expect(layOutTrial({ ...base, seed: 8 }).trays).not.toEqual(layOutTrial(base).trays);
});

test("Latin square: every dose once in every cook and once in every place", () => {
  const { trays } = layOutTrial({ ...base, layout: "latin" });
  expect([...counts(trays, ({ cook }: { cook: string }) => cook).values()]).toEqual(Array(9).fill(1));
  expect([...counts(trays, ({ position }: { position: number }) => String(position)).values()]).toEqual(
    Array(9).fill(1),
  );
});

test("split plot: in every cook a chamber has one temperature, and every dose equally often", () => {
  const { trays } = layOutTrial({ ...base, layout: "split", traysPerArm: 2 });
  for (const cook of base.cooks) {
    for (const chamber of ["A", "B"]) {
      const own = trays.filter((tray) => tray.cook === cook && tray.chamber === chamber);
      expect(new Set(own.map(({ treatments }) => treatments.fruiting_c)).size).toBe(1);
      expect([...counts(own, () => "").values()]).toEqual([2, 2, 2]);
    }
  }
});

test("split plot of temperatures alone: each chamber has one, swapped over the cooks, with as many trays", () => {
  const { trays } = layOutTrial({ ...base, layout: "split", arms: [{}], traysPerArm: 3, cooks: ["C8", "C9"] });
  const runs = ["C8", "C9"].flatMap((cook) =>
    ["A", "B"].map((chamber) => trays.filter((tray) => tray.cook === cook && tray.chamber === chamber)),
  );
  expect(runs.map((own) => own.length)).toEqual([3, 3, 3, 3]);
  const celsius = runs.map((own) => [...new Set(own.map(({ treatments }) => treatments.fruiting_c))].join());
  expect([celsius[0], celsius[1]].sort()).toEqual(["16", "19"]);
  expect(celsius.slice(2)).toEqual([celsius[1], celsius[0]]);
});

test("a column of one's own is varied under its own header, and the trial is known again by it", () => {
  const plan = layOutTrial({ ...base, arms: [{ "air, exchange": "low" }, { "air, exchange": "high" }] });
  const trial = { plannedOn: "2026-03-02", varies: "air, exchange", cooks: 3 };
  const [header, first] = plannedRows(plan, trial);
  expect(header!.slice(-2)).toEqual(["air, exchange", "planned_trial"]);
  expect(["low", "high"]).toContain(first!.at(-2));
  expect(plannedTrialOf({ factors: { planned_trial: first!.at(-1)! } })).toEqual(trial);
  expect(tagsOf(plan)).toEqual(["air, exchange: high", "air, exchange: low"]);
});

test("cook names go on from the book's own", () => {
  expect(nextCooks(["C1", "C2", "C10"], 2)).toEqual(["C11", "C12"]);
  expect(nextCooks(["2026-07"], 2)).toEqual(["2026-08", "2026-09"]);
  expect(nextCooks(["spring", "summer"], 2)).toEqual(["P1", "P2"]);
  expect(nextCooks([], 1)).toEqual(["P1"]);
  expect(() => nextCooks([], 0)).toThrow(RangeError);
});

const trial = { plannedOn: "2026-03-02", varies: "inoculum_ml", cooks: 3 };

test("every row says which trial it is", () => {
  const [header, ...rows] = plannedRows(layOutTrial(base), trial);
  const texts = new Set(rows.map((row) => row[header!.indexOf("planned_trial")]));
  expect([...texts]).toEqual(["2026-03-02: inoculum_ml over 3 cooks drawn by lot"]);
  expect(plannedTrialOf(trayRecord({ trayId: "1", factors: { planned_trial: [...texts][0]! } }))).toEqual(trial);
});

test("a value outside the canonical columns is refused", () => {
  const plan = layOutTrial(base);
  expect(() => plannedRows(plan, trial, { colour: "red" })).toThrow(/canonical column; received colour/);
});

test("the next trial keeps what the latest cook had alike", () => {
  const tray = (trayId: string, given: object) => trayRecord({ trayId, ...given });
  const shared = sharedByLatest([
    tray("1", { batch: "C1", inoculatedOn: "2026-01-01", strain: "old" }),
    tray("2", { batch: "C2", inoculatedOn: "2026-02-01", strain: "new", container: "bag", grainDryGrams: 380 }),
    tray("3", { batch: "C2", inoculatedOn: "2026-02-01", strain: "new", container: "jar", grainDryGrams: 380 }),
  ]);
  expect(shared).toEqual({ strain: "new", grain_dry_g: "380" });
  expect(sharedByLatest([])).toEqual({});
});

test("a scanner reads the tray's name from its code", () => {
  for (const trayId of ["C8-01", "Küche 3 / α", "x".repeat(60)]) {
    // the library's reader, on a picture of the dots that the drawn code has: every subpath is one dot
    const drawn = trayCode(trayId);
    const width = Number(/viewBox="0 0 (\d+) /.exec(drawn)![1]);
    const dots = Array.from({ length: width }, () => new Array<boolean>(width).fill(false));
    let [x, y] = [0, 0];
    for (const [, letter, right, down] of drawn.matchAll(/([Mm])\s*(-?\d+)[ ,]?(-?\d+)/g)) {
      [x, y] = letter === "M" ? [Number(right), Number(down)] : [x + Number(right), y + Number(down)];
      dots[y]![x] = true;
    }
    const [scale, size] = [4, width * 4];
    const data = new Uint8Array(size * size * 4).fill(255);
    for (let row = 0; row < size; row++) {
      for (let column = 0; column < size; column++) {
        const at = (row * size + column) * 4;
        if (dots[Math.floor(row / scale)]![Math.floor(column / scale)]) data.fill(0, at, at + 3);
      }
    }
    expect(decodeQR({ width: size, height: size, data })).toBe(trayId);
  }
});

test("labels and map hold every tray, fetch nothing, run nothing, and escape what they print", () => {
  const plan = layOutTrial({ ...base, prefix: "<b>&" });
  const letters = armLetters(plan);
  expect([...letters.values()]).toEqual(["A", "B", "C"]);
  for (const page of [trayLabels(plan, "<script>"), loadMap(plan, "a & b")]) {
    expect(page).not.toMatch(/<script|<b>|https?:(?!\/\/www\.w3\.org\/2000\/svg)|<img|<link/);
    for (const { trayId } of plan.trays) {
      expect(page).toContain(trayId.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;"));
    }
  }
  expect(trayLabels(plan, "t").match(/<svg/g)).toHaveLength(plan.trays.length);
});
