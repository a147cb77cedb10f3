import { expect, test } from "vitest";
import { halfWrittenThings, variedThings } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { tray } from "../costing/sample-records.ts";
import { inside, keys } from "./hand-trays.ts";

// common practice, no source: layouts typed by hand whose main question a grower would name at a glance

test("a dose inside cooks comes before a strain that changed from cook to cook", () => {
  const trays = inside((place, cook) => ({ inoculumMillilitres: place % 2 ? 3 : 9, strain: cook < "C" ? "x" : "y" }));
  expect(keys(trays)).toEqual(["inoculum_ml", "strain"]);
  expect(variedThings(trays)[1]!.place).toBe("whole cooks");
});

test("an even column of one's own comes before an uneven dose; what the book says it is about comes first", () => {
  const trays = inside((place, cook) => ({
    inoculumMillilitres: cook === "A" && place === 0 ? 3 : 9,
    factors: { filter: place % 2 ? "disc" : "tape" },
  }));
  expect(keys(trays)[0]).toBe("factor:filter");
  expect(keys(trays, "inoculum_ml")[0]).toBe("inoculum_ml");
});

test("what was the same on every tray, weights that scatter by a gram, and names of single trays were not varied", () => {
  const trays = inside((place, cook) => ({
    strain: "x",
    substrateWetGrams: 900 + place,
    factors: { remark: `${cook}, tray ${place}`, empty: "" },
  }));
  expect(keys(trays)).toEqual([]);
});

test("a number typed in a column of one's own is an amount", () => {
  const trays = inside((place) => ({ factors: { "holes per bag": String(2 + (place % 3)) } }));
  expect(variedThings(trays)[0]).toMatchObject({ kind: "amount", levels: 3, place: "inside cooks", balance: "even" });
});

test("the number of a repeat sets nothing", () => {
  const trays = inside((place) => ({ factors: { rep: String(1 + (place % 3)), Wdh: String(1 + (place % 2)) } }));
  expect(keys(trays)).toEqual([]);
});

test("seasons and years are made from dates and come last", () => {
  const trays = inside((place, cook) => ({
    inoculatedOn: cook < "C" ? "2025-12-03" : "2026-04-11",
    inoculumMillilitres: place % 2 ? 3 : 9,
  }));
  expect(keys(trays)).toEqual(["inoculum_ml", "season", "year"]);
  expect(variedThings(trays)[1]!.factor.level(trays[0]!)).toBe("2026 Dec to Feb");
});

test("where trays stood comes after what they were given, and is the question where nothing else was", () => {
  const shelves = (facts: Partial<Tray>) =>
    inside((place, cook) => ({
      shelf: `S${place % 3}`,
      ...facts,
      ...(facts.strain ? { strain: cook < "C" ? "x" : "y" } : {}),
    }));
  expect(keys(shelves({}))).toEqual(["shelf"]);
  expect(keys(shelves({ strain: "either" }))).toEqual(["strain", "shelf"]);
});

test("cooks of two months are of one season, whatever the calendar says", () => {
  const trays = inside((_, cook) => ({ inoculatedOn: cook < "C" ? "2026-02-03" : "2026-03-11" }));
  expect(keys(trays)).toEqual([]);
});

test("a column filled for half of the trays is asked about, one for fewer is not", () => {
  const filled = (places: number) => keys(inside((place) => (place < places ? { strain: place % 2 ? "x" : "y" } : {})));
  expect(filled(3)).toEqual(["strain"]);
  expect(filled(2)).toEqual([]);
});

test("twelve names are compared one by one, thirteen are not; thirteen amounts are a trend", () => {
  const tried = (levels: number, of: (level: number) => Partial<Tray>) =>
    keys(Array.from({ length: 3 * levels }, (_, place) => tray({ batch: "A", ...of(place % levels) })));
  const named = (level: number) => ({ strain: `s${level}` });
  expect(tried(12, named)).toEqual(["strain"]);
  expect(tried(13, named)).toEqual([]);
  expect(tried(13, (level) => ({ inoculumMillilitres: 1 + level }))).toEqual(["inoculum_ml"]);
});

test("names that nearly every tray has for itself are no groups, but three trays may have three boxes", () => {
  const boxes = (...names: string[]) => keys(names.map((container) => tray({ batch: "A", container })));
  expect(boxes("a", "b", "c")).toEqual(["container"]);
  expect(boxes("a", "b", "c", "d")).toEqual([]);
  // four names for six trays group them; three names for four do not
  expect(boxes("a", "a", "b", "c", "d", "d")).toEqual(["container"]);
  expect(boxes("a", "a", "b", "c")).toEqual([]);
});

test("levels lie fairly evenly where the rarest has half its even share of trays, a pool counting as its trays", () => {
  const trays = (rare: Partial<Tray>[]) => [
    ...Array.from({ length: 9 }, () => tray({ batch: "A", strain: "x" })),
    ...rare.map((facts) => tray({ batch: "A", strain: "y", ...facts })),
  ];
  const balance = (...rare: Partial<Tray>[]) => variedThings(trays(rare))[0]!.balance;
  expect(balance({}, {}, {})).toBe("fairly even"); // 3 of 12: half of 6
  expect(balance({}, {})).toBe("uneven"); // 2 of 11
  expect(balance({ traysInPool: 2 }, {})).toBe("fairly even");
  expect(balance({ traysInPool: 6 })).toBe("even"); // 6 of 15: four fifths of 7.5
});

test("a thing varied inside cooks where two cooks or more, and half of all, hold several of its levels", () => {
  const placed = (mixed: string) =>
    variedThings(
      inside((place, cook) => ({ strain: mixed.includes(cook) && place % 2 ? "x" : cook < "C" ? "y" : "z" })),
    )[0]!.place;
  expect(placed("ABCD")).toBe("inside cooks");
  expect(placed("AB")).toBe("inside cooks");
  expect(placed("A")).toBe("whole cooks");
  const fifth = Array.from({ length: 6 }, () => tray({ batch: "E", strain: "y" }));
  const two = inside((place, cook) => ({ strain: cook < "C" && place % 2 ? "x" : "y" }));
  expect(variedThings([...two, ...fifth])[0]!.place).toBe("whole cooks");
});

test("trays whose cooks are not named lie in the days they were inoculated", () => {
  const days = ["2026-03-02", "2026-03-09", "2026-03-16"];
  const dated = (named: number) =>
    days.flatMap((inoculatedOn, day) =>
      Array.from({ length: 10 }, (_, place) =>
        tray({
          inoculatedOn,
          strain: place % 2 ? "x" : "y",
          ...(place < named ? { batch: `${day} ${place % 2}` } : {}),
        }),
      ),
    );
  expect(variedThings(dated(7))[0]!.place).toBe("inside cooks");
  // eight in ten are named: the cooks decide, and each of them got one strain
  expect(variedThings(dated(8))[0]!.place).toBe("whole cooks");
});

test("of two things that lie alike, one with few levels comes before a trend over many", () => {
  const trays = Array.from({ length: 26 }, (_, place) =>
    tray({ batch: "A", inoculumMillilitres: 1 + (place % 13), strain: place < 13 ? "x" : "y" }),
  );
  expect(keys(trays)).toEqual(["strain", "inoculum_ml"]);
});

test("amounts within 3 % of their mean were measured, not set, below zero too", () => {
  const warm = (...degrees: number[]) =>
    keys(degrees.map((incubationCelsius) => tray({ batch: "A", incubationCelsius })));
  expect(warm(100, 102.9, 100)).toEqual([]);
  expect(warm(98.5, 101.5, 98.5)).toEqual(["incubation_c"]);
  const own = (...values: string[]) => keys(values.map((shift) => tray({ batch: "A", factors: { shift } })));
  expect(own("-100", "-101", "-100")).toEqual([]);
});

test("a book of a whole season, 90 days, may differ by season", () => {
  const until = (last: string) =>
    keys(inside((_, cook) => ({ inoculatedOn: cook < "C" ? "2026-01-01" : last }))).includes("season");
  expect(until("2026-03-31")).toBe(false); // 89 days
  expect(until("2026-04-01")).toBe(true); // 90 days
});

test.each<[string, Partial<Tray>, Partial<Tray>, "amount" | "names"]>([
  ["inoculum_ml", { inoculumMillilitres: 5 }, { inoculumMillilitres: 9 }, "amount"],
  ["spawn_g", { spawnGrams: 50 }, { spawnGrams: 90 }, "amount"],
  ["spawn_pct", { spawnShare: 0.05 }, { spawnShare: 0.1 }, "amount"],
  ["supplement_g", { supplementGrams: 0 }, { supplementGrams: 20 }, "amount"],
  ["supplement", { supplement: "bran" }, { supplement: "soy" }, "names"],
  ["supplement_grade", { supplementGrade: "fine" }, { supplementGrade: "coarse" }, "names"],
  ["strain", { strain: "x" }, { strain: "y" }, "names"],
  ["fruiting_c", { fruitingCelsius: 16 }, { fruitingCelsius: 20 }, "amount"],
  ["incubation_c", { incubationCelsius: 22 }, { incubationCelsius: 26 }, "amount"],
  ["light_hours", { lightHours: 8 }, { lightHours: 12 }, "amount"],
  ["added_liquid_ml", { addedLiquidMillilitres: 0 }, { addedLiquidMillilitres: 5 }, "amount"],
  ["container", { container: "bag" }, { container: "bucket" }, "names"],
  ["substrate_wet_g", { substrateWetGrams: 900 }, { substrateWetGrams: 1500 }, "amount"],
  ["grain_dry_g", { grainDryGrams: 300 }, { grainDryGrams: 500 }, "amount"],
  ["culture_generation", { cultureGeneration: 1 }, { cultureGeneration: 3 }, "amount"],
  ["culture_age_days", { cultureAgeDays: 10 }, { cultureAgeDays: 40 }, "amount"],
  ["operator", { operator: "An" }, { operator: "Bo" }, "names"],
  ["chamber", { chamber: "1" }, { chamber: "2" }, "names"],
  ["shelf", { shelf: "top" }, { shelf: "low" }, "names"],
])("%s is found where it varied, as what it is", (key, one, other, kind) => {
  const found = variedThings(inside((place) => (place % 2 ? one : other)));
  expect(found.map(({ factor, kind: as, trays, isPeriod }) => [factor.key, as, trays, isPeriod])).toEqual([
    [key, kind, 24, false],
  ]);
});

test("what is written on some trays only, two or more each way, is pointed out and not compared", () => {
  const written = (count: number, facts: Partial<Tray> = { supplement: "bran" }) => {
    const trays = Array.from({ length: 8 }, (_, place) => tray(place < count ? facts : {}));
    return halfWrittenThings(trays).map(({ factor, level, blank }) => [factor.key, level, blank]);
  };
  expect(written(3)).toEqual([["supplement", "bran", 5]]);
  expect(written(2)).toEqual([["supplement", "bran", 6]]);
  expect(written(6)).toEqual([["supplement", "bran", 2]]);
  expect([0, 1, 7, 8].flatMap((count) => written(count))).toEqual([]);
  const [first, ...more] = [tray({ supplement: "bran" }), tray({ supplement: "soy" }), tray({}), tray({})];
  expect(halfWrittenThings([first!, ...more])).toEqual([]);
});

test("a book is about what it varied most evenly; a column of one's own or a person does not come before a dose for that", () => {
  const dose = (place: number) => (place % 3 === 0 ? 9 : 3);
  const strains = inside((place) => ({ strain: place % 2 ? "x" : "y", inoculumMillilitres: dose(place) }));
  expect(keys(strains).slice(0, 2)).toEqual(["strain", "inoculum_ml"]);
  const lamps = inside((place) => ({
    factors: { lamp: place % 2 ? "on" : "off" },
    operator: place % 2 ? "first" : "second",
    inoculumMillilitres: dose(place),
  }));
  expect(keys(lamps)).toEqual(["inoculum_ml", "factor:lamp", "operator"]);
});

test("a strain of its own for every tray was varied, a container's name was not", () => {
  const names = "abcdefgh".split("");
  const trays = names.map((name) =>
    tray({ trayId: name, batch: "A", strain: `strain ${name}`, container: `box ${name}` }),
  );
  expect(keys(trays)).toEqual(["strain"]);
});

test("no supplement beside a fine and a coarse one is a third level of the grade", () => {
  const trays = inside((place) =>
    place % 3 === 0
      ? { supplement: "none" }
      : { supplement: "soy hulls", supplementGrade: place % 3 === 1 ? "fine" : "coarse" },
  );
  const [first] = variedThings(trays);
  expect(first).toMatchObject({ factor: { key: "supplement_grade" }, levels: 3 });
});
