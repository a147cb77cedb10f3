import { expect, test } from "vitest";
import { dueEntries } from "../../analyses/due/due-entries.ts";
import { dueFront } from "../../analyses/due/due-front.ts";
import { dueLines } from "../../analyses/due/due-lines.ts";
import { dueTrays } from "../../analyses/due/due-trays.ts";
import { dueWeek } from "../../analyses/due/due-week.ts";
import { lossChance } from "../../analyses/due/loss-chance.ts";
import { waitCurve } from "../../analyses/due/wait-curve.ts";
import { whatIsDue } from "../../analyses/due/what-is-due.ts";
import { dateOfDay, dayNumber, daysBetween } from "../../src/measures/day-number.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { dueBook, firstDay } from "./due-book.ts";
import { measureDue } from "./measure-due.ts";

const quiet = { cooks: 12, traysPerCook: 6, cookSd: 0.05, traySd: 0.08 };
const onDay = (offset: number) => dateOfDay(firstDay + offset);
const wait = (days: number, group: string) => ({ lower: days, upper: days + 1, group });

test.each([
  ["cooks that differ", { ...quiet, cookSd: 0.1 }],
  ["a long tail of late trays", { ...quiet, law: "skewed" as const, traySd: 0.2 }],
  ["losses", { ...quiet, lost: 0.2 }],
])(
  "on simulated books with %s the window reported as 8 of 10 holds 8 of 10, and 19 of 20 are there in time",
  (_, book) => {
    const { windows, held, sooner, later, byLate } = measureDue(book, 6, 49, 14);
    expect(windows).toBeGreaterThan(400);
    // three standard errors of cooks below: trays of one cook come true together
    expect(held).toBeGreaterThan(0.76);
    expect(held).toBeLessThan(0.95);
    expect(Math.max(sooner, later)).toBeLessThan(0.18);
    expect(byLate).toBeGreaterThan(0.9);
  },
);

test("of nine waits the outermost bound 8 of 10; trays still waiting move the end, not the beginning", () => {
  // order statistics: the next of n lies between the outermost of 9 with chance 8 / 10 (David and Nagaraja 2003, Order
  // Statistics, section 7.3, from memory)
  const nine = [10, 11, 12, 13, 14, 15, 16, 17, 18].map((days) => wait(days, `C${days}`));
  const curve = waitCurve(nine, 0.3)!;
  expect([curve.dayBy(0.1, 0), curve.dayBy(0.5, 0), curve.dayBy(0.9, 0)]).toEqual([10, 14, 18]);
  const waiting = [15, 15, 15].map((lower) => ({ lower, upper: Number.POSITIVE_INFINITY, group: "C30" }));
  const later = waitCurve([...nine, ...waiting], 0.3)!;
  expect(later.dayBy(0.1, 0)).toBe(10);
  expect(later.dayBy(0.5, 0)).toBe(15);
});

test("a tray that has waited already is expected later than one just started", () => {
  const curve = waitCurve(
    [10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20].map((days) => wait(days, `C${days}`)),
    0,
  )!;
  expect(curve.dayBy(0.5, 16)).toBeGreaterThan(curve.dayBy(0.5, 0));
  for (const waited of [0, 12, 18, 25]) expect(curve.dayBy(0.1, waited)).toBeGreaterThanOrEqual(waited);
});

test("trays of one cook tell less than as many in cooks of their own", () => {
  const waits = (cook: (index: number) => string) => Array.from({ length: 12 }, (_, i) => wait(10 + (i % 4), cook(i)));
  expect(waitCurve(waits(String), 0.3)!.effective).toBe(12);
  expect(
    waitCurve(
      waits(() => "C1"),
      0.3,
    )!.effective,
  ).toBeCloseTo(12 / (1 + 11 * 0.3), 10);
});

test("bounds instead of days are used as bounds; fewer than three waits tell nothing; equal waits do not fail", () => {
  const bounds = [10, 11, 12, 13, 12, 11].map((low, i) => ({ lower: low, upper: low + 4, group: `C${i}` }));
  const { dayBy } = waitCurve(bounds, 0)!;
  expect(dayBy(0.5, 0)).toBeGreaterThanOrEqual(11);
  expect(dayBy(0.5, 0)).toBeLessThanOrEqual(15);
  expect(waitCurve([wait(5, "a"), wait(6, "b")], 0)).toBeUndefined();
  const equal = waitCurve([wait(7, "a"), wait(7, "b"), wait(7, "c")], 0)!;
  expect([equal.dayBy(0.1, 0), equal.dayBy(0.9, 0), equal.dayBy(0.9, 9)]).toEqual([7, 7, 9]);
});

test("what is left after long is the slow ones and the lost ones", () => {
  expect(lossChance(0.1, 1)).toBeCloseTo(0.1, 12);
  expect(lossChance(0.1, 0.01)).toBeGreaterThan(0.9);
});

test("each growing tray has what comes next, and the harvest after it", () => {
  const trays = dueBook({ ...quiet, seed: 3 });
  const steps = new Set<string>();
  for (let day = 70; day < 77; day++) {
    const { trays: due, undated } = dueTrays(trays, defaultSettings, onDay(day));
    expect(undated).toEqual([]);
    for (const { tray, next, harvest } of due) {
      const step = tray.fruitingOn! <= onDay(day) ? "harvest" : tray.colonisedOn! <= onDay(day) ? "move" : "colonise";
      steps.add(step);
      expect(next.step, tray.trayId).toBe(step);
      expect(next.basis.kind).toBe("own");
      expect(harvest === undefined).toBe(step === "harvest");
      expect(next.low).toBeLessThanOrEqual(next.likely!);
      expect(next.likely).toBeLessThanOrEqual(next.high);
    }
  }
  expect(steps).toEqual(new Set(["colonise", "move", "harvest"]));
});

test("no step begins or ends later than the harvest after it", () => {
  // one tray's colonising is noted, so that of the others has the usual range, 30 days at most; harvests come after 20
  const quick = dueBook({ ...quiet, seed: 3 }).map((tray, at) => ({
    ...tray,
    colonisedOn: at === 0 ? tray.colonisedOn : undefined,
    fruitingOn: undefined,
    harvestedOn: onDay(dayNumber(tray.inoculatedOn!) - firstDay + 20 + (at % 3)),
  }));
  let [usual, own] = [0, 0];
  for (const book of [quick, ...[4, 5, 6].map((seed) => dueBook({ ...quiet, seed, cookSd: 0.2, traySd: 0.2 }))]) {
    for (let day = 30; day < 90; day += 7) {
      for (const { next, harvest } of dueTrays(book, defaultSettings, onDay(day)).trays) {
        if (harvest === undefined) continue;
        if (next.basis.kind === "usual") usual++;
        else own++;
        expect(next.low).toBeLessThanOrEqual(harvest.low);
        expect(next.high).toBeLessThanOrEqual(harvest.high);
        expect(next.low).toBeLessThanOrEqual(next.high);
      }
    }
  }
  expect(usual).toBeGreaterThan(10);
  expect(own).toBeGreaterThan(100);
});

test("a tray much later than its kind is overdue, and likely lost where losses are common", () => {
  const trays = dueBook({ ...quiet, seed: 4, lost: 0.15 });
  const late = trayRecord({
    trayId: "LATE",
    batch: "C1",
    outcome: "growing",
    strain: "strain 1",
    inoculumMillilitres: 6,
    inoculatedOn: onDay(0),
  });
  const { trays: due } = dueTrays([...trays, late], defaultSettings, onDay(60));
  expect(due[0]!.tray.trayId).toBe("LATE");
  expect(due[0]!.state).toBe("lost");
  expect(due[0]!.lossChance).toBeGreaterThan(0.5);
  // not colonised yet, it has the way of the others from there to harvest before it
  const quickest = Math.min(
    ...trays.flatMap(({ colonisedOn, harvestedOn }) =>
      colonisedOn === undefined || harvestedOn === undefined ? [] : [daysBetween(colonisedOn, harvestedOn)],
    ),
  );
  expect(quickest).toBeGreaterThan(10);
  expect(due[0]!.harvest!.low).toBeGreaterThanOrEqual(firstDay + 60 + quickest);
  const [line] = dueLines({ day: { on: firstDay + 60, known: firstDay + 60 }, trays: due, flushes: [] });
  expect(line!.when).toMatch(
    /^not colonised 60 days after inoculation; 19 of 20 are there by \d+; chance that it is lost/,
  );
});

test("a book without days of its own is dated by the usual range of its settings, and says so", () => {
  const started = ["A", "B"].map((trayId) =>
    trayRecord({ trayId, batch: "C1", outcome: "growing", inoculatedOn: onDay(0) }),
  );
  const due = dueTrays(started, defaultSettings, onDay(5));
  expect(due.trays.map(({ next, state }) => [next.step, next.low, next.high, state])).toEqual([
    ["colonise", firstDay + 3, firstDay + 30, "due"],
    ["colonise", firstDay + 3, firstDay + 30, "due"],
  ]);
  expect(due.trays[0]!.harvest).toMatchObject({ low: firstDay + 10, high: firstDay + 130, basis: { kind: "usual" } });
  expect(dueLines(due)[0]!.when).toMatch(/usual range$/);
  // a harvest that may come on any of 120 days is due in no week of them, and nothing is to do about it
  const colonised = started.map((tray) => ({ ...tray, colonisedOn: onDay(14) }));
  const front = dueFront(dueTrays(colonised, defaultSettings, onDay(20)));
  expect(front.figure).toMatchObject({ value: 0, of: 2 });
  expect(front.next).toEqual([]);
  expect(front.short!.join("")).toContain("no tray is late; 2 may be ready any day.");
  const said = whatIsDue.run({ ...trialOfTrays(colonised), settings: { ...defaultSettings, reportDate: onDay(20) } });
  expect(said.kind === "answer" && said.sentence.join("")).toMatch(
    /growing: none late; 2 may be ready to harvest any day, as too few harvests show how long they take\.$/,
  );
  const late = dueTrays(
    due.trays.map(({ tray }) => tray),
    defaultSettings,
    "2027-12-31",
  );
  expect(dueFront(late).next?.[0]?.because?.[0]).toMatch(/later than the usual range\.$/);
});

test("each strain is dated by its own days where they are enough", () => {
  const trays = dueBook({ ...quiet, cooks: 16, traysPerCook: 12, strains: 2, seed: 5 });
  const due = dueTrays(trays, defaultSettings, onDay(100)).trays.filter(({ next }) => next.step === "colonise");
  const likely = (strain: string) =>
    due.filter(({ tray }) => tray.strain === strain).map(({ next }) => next.likely! - next.start);
  expect(Math.min(...likely("strain 2"))).toBeGreaterThan(Math.max(...likely("strain 1")));
});

test("flushes: the next one is dated from the last picking", () => {
  const flushes = (days: number[]) => days.map((day, index) => ({ number: index + 1, harvestedOn: onDay(day) }));
  const done = Array.from({ length: 12 }, (_, i) =>
    trayRecord({
      trayId: `T${i}`,
      batch: `C${i}`,
      inoculatedOn: onDay(i),
      harvestedOn: onDay(i + 40),
      flushes: flushes([i + 40, i + 52 + (i % 3)]),
    }),
  );
  const growing = trayRecord({
    trayId: "G",
    outcome: "growing",
    inoculatedOn: onDay(20),
    harvestedOn: onDay(60),
    flushes: flushes([60]),
  });
  const due = dueTrays([...done, growing], defaultSettings, onDay(66)).trays.find(({ tray }) => tray === growing)!;
  expect(due.next).toMatchObject({ step: "flush", start: firstDay + 60, low: firstDay + 72, high: firstDay + 74 });
});

test("a past day gives the list as it was then; a tray not started, lost or picked is not in it", () => {
  const trays = dueBook({ ...quiet, seed: 6, lost: 0.1 });
  const due = dueTrays(trays, defaultSettings, onDay(45)).trays.map(({ tray }) => tray);
  expect(due.length).toBeGreaterThan(0);
  for (const tray of due) {
    expect(tray.inoculatedOn! <= onDay(45) && tray.harvestedOn! > onDay(45) && tray.outcome === "good").toBe(true);
  }
});

test("a list by day puts late trays first, and its calendar keeps an entry's name when days move", () => {
  const trays = dueBook({ ...quiet, seed: 7 });
  const at = (day: number) => {
    const due = dueTrays(trays, defaultSettings, onDay(day));
    return { due, lines: dueLines(due) };
  };
  const [now, next] = [at(70), at(71)];
  const { days } = dueWeek(now.lines, now.due.day, true);
  expect(days.filter(({ title }) => title !== "Look at first")).toHaveLength(7);
  const listed = now.lines.flatMap(({ trays: names }) => names);
  expect(new Set(listed).size).toBe(now.due.trays.length);
  const uids = (lines: typeof now.lines, day: number) => dueEntries(lines, onDay(day)).map(({ uid }) => uid);
  expect(new Set(uids(now.lines, 70)).size).toBe(uids(now.lines, 70).length);
  expect(uids(next.lines, 71).filter((uid) => uids(now.lines, 70).includes(uid)).length).toBeGreaterThan(3);
  for (const { from, to } of dueEntries(now.lines, onDay(70))) expect(from <= to && from >= onDay(70)).toBe(true);
});

test("the question tells what is late first, by the report's date or else the book's last; none where nothing grows", () => {
  const trays = dueBook({ ...quiet, seed: 8 });
  const late = trayRecord({ trayId: "LATE", outcome: "growing", inoculatedOn: onDay(0) });
  const outcome = whatIsDue.run(trialOfTrays([...trays, late], { reportDate: onDay(75) }));
  expect(outcome.kind).toBe("answer");
  expect(outcome.next?.[0]).toMatchObject({ rank: "due", see: "tray:LATE" });
  expect(outcome.tables[1]!.rows[0]![0]).toBe("LATE");
  const last = whatIsDue.run(trialOfTrays([...trays, late]));
  expect(last.kind === "answer" && last.sentence.join("")).toContain("one tray is growing: 1 late, none due");
  expect(last.kind === "answer" && last.short!.join("")).toMatch(/: one tray is late\.$/);
  expect(whatIsDue.run(trialOfTrays(trays))).toMatchObject({ kind: "cannot-tell", missing: { kind: "record" } });
});

test("a pool counts as its trays", () => {
  const pool = (trayId: string, more: object) =>
    trayRecord({ trayId, traysInPool: 6, inoculatedOn: "2026-03-01", outcome: "growing", ...more });
  const due = dueTrays(
    [pool("first six", {}), pool("next six", { inoculatedOn: "2026-03-08" })],
    defaultSettings,
    "2026-03-10",
  );
  expect(dueFront(due).figure).toMatchObject({ of: 12, unit: "trays" });
  expect(dueLines(due).map(({ who }) => who)).toContain("6 trays: first six");
});

test("a good tray is listed for its next flush while one is more likely than not, with how many such trays gave one", () => {
  const often = dueBook({ ...quiet, seed: 6, second: 0.8 });
  const { flushes } = dueTrays(often, defaultSettings, onDay(120));
  // trays whose second flush came count as growing until then: those left are the ones that may not give any
  for (const { tray, next, again } of flushes) {
    expect(tray.flushes).toHaveLength(1);
    expect([next.step, next.from]).toEqual(["flush", "picked"]);
    expect(again).toBeGreaterThan(0.6);
    expect(next.late).toBeGreaterThanOrEqual(firstDay + 120);
  }
  const every = Array.from(
    { length: 60 },
    (_, day) => dueTrays(often, defaultSettings, onDay(60 + day)).flushes,
  ).flat();
  expect(every.length).toBeGreaterThan(5);
  expect(dueLines({ day: { on: firstDay, known: firstDay }, trays: [], flushes: every })[0]!.when).toMatch(
    /, 8 of 10, if it still stands: \d+% of such trays gave another$/,
  );
  const rarely = dueBook({ ...quiet, seed: 6, second: 0.2 });
  for (let day = 60; day < 140; day += 10) expect(dueTrays(rarely, defaultSettings, onDay(day)).flushes).toEqual([]);
});

test("windows of flushes hold 8 of 10, too", () => {
  const { windows, held, byLate } = measureDue({ ...quiet, cooks: 16, second: 0.7 }, 5, 60, 7);
  expect(windows).toBeGreaterThan(400);
  expect(held).toBeGreaterThan(0.76);
  expect(byLate).toBeGreaterThan(0.9);
});
