import { expect, test } from "vitest";
import { daysCharged, trayLives } from "../../src/costing/trays/tray-life.ts";
import { dayNumber } from "../../src/measures/day-number.ts";
import type { Tray } from "../../src/records/tray.ts";
import { tray } from "./sample-records.ts";

// by hand: days of January 2026 and after, counted from the day of inoculation

const start = dayNumber("2026-01-01");
const date = (day: number): string => new Date((start + day) * 86_400_000).toISOString().slice(0, 10);
const on = (facts: Partial<Tray> = {}): Tray => tray({ inoculatedOn: date(0), ...facts });
const good = (day: number, facts: Partial<Tray> = {}) => on({ harvestedOn: date(day), ...facts });
const lost = (facts: Partial<Tray> = {}) => on({ outcome: "contaminated", ...facts });
/** The last tray's life among the others, in days since 1 January. */
const lifeOf = (trays: Tray[], lookedAt = "") => {
  const life = trayLives(trays, lookedAt).at(-1)!;
  const since = (day: number | undefined) => (day === undefined ? undefined : day - start);
  return { ...life, start: since(life.start), fruiting: since(life.fruiting), end: since(life.end) };
};

test("a good tray without a day of picking took as long as the others; so is said", () => {
  expect(lifeOf([good(40), good(50), on()])).toMatchObject({ start: 0, end: 45, isTypical: true });
  expect(lifeOf([good(40), good(50), good(60)])).toMatchObject({ end: 60, isTypical: false });
  expect(lifeOf([on()])).toMatchObject({ end: undefined, isTypical: false });
  expect(lifeOf([good(40), lost({ harvestedOn: date(12) }), on()]).end).toBe(40);
  expect(lifeOf([good(40), tray()])).toMatchObject({ start: undefined, end: undefined, isTypical: false });
  // the last of several pickings ends it
  expect(
    lifeOf([
      good(40, {
        flushes: [
          { number: 2, harvestedOn: date(58) },
          { number: 1, harvestedOn: date(44) },
        ],
      }),
    ]).end,
  ).toBe(58);
});

test("a lost tray without its day stood as long as other lost ones; else up to the move, or its picking where it was moved", () => {
  const moved = good(50, { fruitingOn: date(20) });
  expect(lifeOf([moved, lost({ harvestedOn: date(12) }), lost()])).toMatchObject({ end: 12, isTypical: true });
  expect(lifeOf([moved, lost()])).toMatchObject({ end: 20, reached: "incubation" });
  expect(lifeOf([moved, lost({ fruitingOn: date(22) })])).toMatchObject({ end: 50, reached: "fruiting" });
  expect(lifeOf([good(50), lost()])).toMatchObject({ end: 50, isTypical: true });
  // what is recorded of it later than that was still seen
  expect(lifeOf([moved, lost({ harvestedOn: date(12) }), lost({ colonisedOn: date(15) })])).toMatchObject({ end: 15 });
  expect(lifeOf([moved, lost({ harvestedOn: date(12) }), lost({ fruitingOn: date(25) })])).toMatchObject({ end: 25 });
});

test("a growing tray has stood up to the day the book is looked at, the last one recorded unless stated", () => {
  const growing = on({ outcome: "growing", inoculatedOn: date(30) });
  expect(lifeOf([good(50), growing])).toMatchObject({ start: 30, end: 50, isTypical: false });
  expect(lifeOf([good(50, { driedOn: date(53) }), growing]).end).toBe(53);
  expect(lifeOf([good(20), on({ outcome: "growing", colonisedOn: date(34) }), growing]).end).toBe(34);
  expect(lifeOf([good(20), on({ outcome: "growing", fruitingOn: date(36) }), growing]).end).toBe(36);
  expect(lifeOf([good(50), growing], date(70)).end).toBe(70);
  expect(lifeOf([good(20), growing], date(25)).end).toBe(30);
  expect(lifeOf([good(50), tray({ outcome: "growing" })]).end).toBeUndefined();
});

test("a date before the one it must follow is not used", () => {
  expect(lifeOf([good(50, { fruitingOn: date(-3), colonisedOn: date(-1) })])).toMatchObject({ end: 50 });
  expect(lifeOf([good(50, { fruitingOn: date(-3) })]).fruiting).toBeUndefined();
  expect(lifeOf([good(40), good(10, { fruitingOn: date(20) })])).toMatchObject({ end: 40, isTypical: true });
  expect(lifeOf([good(40), good(20, { fruitingOn: date(20) })])).toMatchObject({ end: 20, isTypical: false });
  expect(lifeOf([good(40), good(-2)])).toMatchObject({ end: 40, isTypical: true });
});

test("days typed do for dates that are not there", () => {
  expect(lifeOf([tray({ daysToHarvest: 40, harvestedOn: date(45) })])).toMatchObject({ start: 5, end: 45 });
  expect(lifeOf([on({ daysToHarvest: 40, daysToColonise: 12 })])).toMatchObject({ end: 40, colonised: start + 12 });
  const [life] = trayLives([tray({ daysToHarvest: 40 })], "");
  expect(life).toMatchObject({ start: 0, end: 40 });
});

test("a tray that was fruited without its day was moved when others were, and not after its end", () => {
  const others = [good(50, { fruitingOn: date(20) }), good(50, { fruitingOn: date(24) })];
  expect(lifeOf([...others, good(48)])).toMatchObject({ fruiting: 22, isTypical: true });
  expect(lifeOf([...others, good(15)])).toMatchObject({ fruiting: 15, isTypical: true });
  expect(lifeOf([...others, good(48, { colonisedOn: date(14) })])).toMatchObject({
    fruiting: undefined,
    isTypical: false,
  });
  expect(lifeOf([good(48)])).toMatchObject({ fruiting: undefined, isTypical: false });
});

test("how far a tray came is what is recorded of it: costs of later stages were not spent on it", () => {
  const reached = (trays: Tray[]) => lifeOf(trays).reached;
  expect(reached([good(50, { dryGrams: 20 })])).toBe("drying");
  expect(reached([good(50, { driedOn: date(52) })])).toBe("drying");
  expect(reached([good(50, { freshGrams: 200, dryGrams: 0 })])).toBe("harvest");
  expect(reached([lost({ dryGrams: 3 })])).toBe("drying");
  expect(reached([lost({ freshGrams: 30 })])).toBe("harvest");
  expect(reached([lost({ fruitingOn: date(20), harvestedOn: date(20) })])).toBe("fruiting");
  expect(reached([lost({ colonisedOn: date(14), harvestedOn: date(20) })])).toBe("fruiting");
  expect(reached([good(50, { fruitingOn: date(20) }), lost({ colonisedOn: date(14), harvestedOn: date(20) })])).toBe(
    "incubation",
  );
  expect(reached([lost()])).toBe("incubation");
  const failed = (facts: Partial<Tray>) => reached([tray({ outcome: "failed", ...facts })]);
  expect(failed({})).toBe("filling");
  expect(failed({ inoculumMillilitres: 0 })).toBe("filling");
  expect(failed({ inoculumMillilitres: 5 })).toBe("incubation");
  expect(failed({ spawnGrams: 50 })).toBe("incubation");
  expect(failed({ spawnShare: 0.05 })).toBe("incubation");
  expect(failed({ daysToHarvest: 9 })).toBe("incubation");
});

test("days charged are those of the line's stage, none where the dates do not tell", () => {
  const days = (trays: Tray[]) => {
    const life = trayLives(trays, "").at(-1)!;
    return (["filling", "incubation", "fruiting", "drying"] as const).map((stage) => daysCharged(life, stage));
  };
  expect(days([good(50, { fruitingOn: date(20), driedOn: date(53) })])).toEqual([50, 20, 30, 3]);
  expect(days([good(50, { colonisedOn: date(14) })])).toEqual([50, 14, 36, undefined]);
  expect(days([good(50)])).toEqual([50, undefined, undefined, undefined]);
  expect(days([lost({ harvestedOn: date(12) })])).toEqual([12, 12, undefined, undefined]);
  // colonised on a day after it was thrown out: no more days than it stood
  expect(days([lost({ harvestedOn: date(12), colonisedOn: date(15) })])).toEqual([12, 12, 0, undefined]);
  expect(days([good(50, { fruitingOn: date(20), driedOn: date(40) })])).toEqual([50, 20, 30, 0]);
  expect(days([tray()])).toEqual([undefined, undefined, undefined, undefined]);
});
